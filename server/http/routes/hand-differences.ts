/** A probe is given the offset that a thermometer in a hand showed. */
import { takeDifferenceSchema } from '../../../shared/contracts/piles.ts';
import { probeSchema } from '../../../shared/contracts/probes.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../pile/pile-port.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import { type DifferenceParts, differenceTaken, handDifferences } from '../../services/probes/hand-differences.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import { publishProbe } from '../../services/probes/publish-probe.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound, sendProblem } from '../problem.ts';
import { pileParams } from './piles.ts';

interface HandDifferencesParts extends Pick<DifferenceParts, 'clock'> {
  readonly journal: Journal;
  readonly probes: ProbeBook;
  readonly watch: PilePort;
  readonly hub: LiveHub;
}

export function registerHandDifferences(api: Api, parts: HandDifferencesParts): void {
  const { journal, probes, watch } = parts;
  api.post(
    '/api/piles/:id/probe-offset',
    {
      config: { access: 'keeper', does: 'audit.did.calibrated-probe-by-thermometer' },
      schema: { params: pileParams, body: takeDifferenceSchema, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const one = watch.get(request.params.id);
      if (!one) return notFound(reply, 'pile', request.params.id);
      const { position, at } = request.body;
      const offered = (await handDifferences(parts, one)).find(
        (difference) => difference.position === position && Date.parse(difference.at) === at,
      );
      const known = offered && probes.get(offered.site, offered.probe);
      if (!known) return sendProblem(reply, 409, message('problem.no-difference'));
      const { site, probe, offsetC } = offered;
      audit(request, { subject: `${site}/${probe}`, before: { temperatureOffsetC: known.temperatureOffsetC } });
      await differenceTaken(parts, offered);
      await journal.probes.setTemperatureOffset(site, probe, offsetC);
      known.temperatureOffsetC = offsetC;
      return publishProbe(parts, known);
    },
  );
}
