/** The label of a pile, to be printed and stuck beside it. */
import type { FastifyRequest } from 'fastify';
import type { Config } from '../../../shared/config.ts';
import { labelSchema } from '../../../shared/contracts/records.ts';
import { inWords } from '../../../shared/messages/in-words.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import { labelSvg } from '../../services/records/label.ts';
import type { Api } from '../api.ts';
import { fileAnswer } from '../file-answer.ts';
import { notFound } from '../problem.ts';
import { opensElsewhere, publicAddress } from '../public-address.ts';
import { pileParams } from './piles.ts';

interface LabelsParts {
  readonly config: Pick<Config, 'PUBLIC_URL'>;
  readonly watch: PilePort;
  readonly journal: Journal;
}

export function registerLabels(api: Api, parts: LabelsParts): void {
  const addressOf = (pileId: string, request: FastifyRequest) =>
    `${publicAddress(parts.config.PUBLIC_URL, request)}/piles/${encodeURIComponent(pileId)}/journal`;

  api.get(
    '/api/piles/:id/label',
    { config: { access: 'viewer' }, schema: { params: pileParams, response: { 200: labelSchema } } },
    async (request, reply) => {
      const one = parts.watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const address = addressOf(one.pile.id, request);
      const elsewhere = opensElsewhere(address);
      const says = elsewhere ? message('label.opens') : message('label.opens-here');
      return { address, opensElsewhere: elsewhere, ...inWords({ says }, 0) };
    },
  );

  api.get(
    '/api/piles/:id/label.svg',
    {
      config: { access: 'viewer' },
      schema: { params: pileParams, response: fileAnswer('The label.', 'image/svg+xml') },
    },
    async (request, reply) => {
      const one = parts.watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const site = (await parts.journal.sites.list()).find(({ id }) => id === one.pile.siteId);
      const svg = await labelSvg(one.pile.name, site?.name ?? one.pile.siteId, addressOf(one.pile.id, request));
      return reply
        .type('image/svg+xml; charset=utf-8')
        .header('Cache-Control', 'private, no-store')
        .header('Content-Security-Policy', "default-src 'none'; style-src 'unsafe-inline'; sandbox")
        .send(svg);
    },
  );
}
