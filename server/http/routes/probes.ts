/** The probes and their calibration. */
import { z } from 'zod';
import {
  calibrationSchema,
  probeSchema,
  probesAnswerSchema,
  probesQuestionSchema,
} from '../../../shared/contracts/probes.ts';
import { nameSchema } from '../../../shared/names.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import { listProbes, readProbeNames } from '../../services/probes/list-probes.ts';
import type { ProbeBook } from '../../services/probes/probe-book.ts';
import { publishProbe } from '../../services/probes/publish-probe.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';

export const probeParams = z.object({ site: nameSchema, probe: nameSchema });

interface ProbesParts {
  readonly hub: LiveHub;
  readonly probes: ProbeBook;
  readonly journal: Journal;
}

export function registerProbes(api: Api, parts: ProbesParts): void {
  api.get(
    '/api/probes',
    {
      config: { access: 'viewer' },
      schema: { querystring: probesQuestionSchema, response: { 200: probesAnswerSchema } },
    },
    async (request) => listProbes(parts.probes, request.query, await readProbeNames(parts.journal)),
  );

  api.put(
    '/api/probes/:site/:probe/calibration',
    {
      config: { access: 'keeper', does: 'audit.did.calibrated-probe' },
      schema: { params: probeParams, body: calibrationSchema, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      audit(request, { before: { temperatureOffsetC: known.temperatureOffsetC } });
      await parts.journal.probes.setTemperatureOffset(site, probe, request.body.temperatureOffsetC);
      known.temperatureOffsetC = request.body.temperatureOffsetC;
      return publishProbe(parts, known);
    },
  );
}
