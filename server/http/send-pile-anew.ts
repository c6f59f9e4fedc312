import type { FastifyReply } from 'fastify';
import type { Journal } from '../../shared/store/journal.ts';
import type { PilePort } from '../pile/pile-port.ts';
import { pileDetail } from '../services/views/pile-detail.ts';
import { notFound } from './problem.ts';

interface SendPileAnewParts {
  readonly journal: Pick<Journal, 'acts'>;
  readonly watch: Pick<PilePort, 'reload'>;
}

/** The pile as it stands after a change of its records; 404 when it is gone meanwhile. */
export async function sendPileAnew({ journal, watch }: SendPileAnewParts, pileId: string, reply: FastifyReply) {
  const one = await watch.reload(pileId);
  return one ? pileDetail(one, await journal.acts.list(pileId)) : notFound(reply, 'pile', pileId);
}
