/** The probes, whom they serve, and their calibration. */
import { z } from 'zod';
import type { Clock } from '../../../shared/clock.ts';
import {
  calibrationSchema,
  claimSchema,
  forgetSchema,
  forgottenSchema,
  probeSchema,
  probesAnswerSchema,
  probesQuestionSchema,
} from '../../../shared/contracts/probes.ts';
import { nameSchema } from '../../../shared/names.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { PilePort } from '../../monitor/pile/pile-port.ts';
import type { LiveHub } from '../../services/live/live-hub.ts';
import type { ForgetProbes } from '../../services/probes/forget-probes.ts';
import { findProbes, listProbes } from '../../services/probes/list-probes.ts';
import { type KnownProbe, type ProbeBook, probeView } from '../../services/probes/probe-book.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';

const probeParams = z.object({ site: nameSchema, probe: nameSchema });

interface ProbesParts {
  readonly hub: LiveHub;
  readonly probes: ProbeBook;
  readonly watch: PilePort;
  readonly clock: Clock;
  readonly journal: Journal;
  readonly forgetting: ForgetProbes;
}

export function registerProbes(api: Api, parts: ProbesParts): void {
  const changed = (known: KnownProbe) => {
    const view = probeView(known);
    parts.hub.publish('probe', `${known.site}/${known.probe}`, view);
    parts.hub.publish('probes', '', parts.probes.counts);
    return view;
  };

  api.get(
    '/api/probes',
    {
      config: { access: 'viewer' },
      schema: { querystring: probesQuestionSchema, response: { 200: probesAnswerSchema } },
    },
    async (request) => listProbes(parts.probes, request.query),
  );

  api.post(
    '/api/probes/:site/:probe/claim',
    {
      config: { access: 'keeper', does: 'claimed a probe for a pile' },
      schema: { params: probeParams, body: claimSchema, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      const { pileId, position, from } = request.body;
      const watch = parts.watch.get(pileId);
      if (!watch) return notFound(reply, 'pile', pileId);

      const before = known.claim?.pileId;
      audit(request, { before: claimAudited(known) });
      // A probe that spoke just before its batch was written down stood in the pile already.
      const laidMs = watch.batch?.startedAtMs ?? parts.clock.nowMs();
      const free = known.claim === null ? (known.lastAtMs ?? laidMs) : laidMs;
      const claim = { site, probe, pileId, position, fromMs: from ?? Math.min(laidMs, free) };
      await parts.journal.claims.claim(claim);
      parts.probes.setClaim(known, { ...claim, toMs: null });
      await parts.watch.reload(pileId);
      if (before !== undefined && before !== pileId) await parts.watch.reload(before);
      return changed(known);
    },
  );

  api.delete(
    '/api/probes/:site/:probe/claim',
    {
      config: { access: 'keeper', does: 'released a probe' },
      schema: { params: probeParams, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      audit(request, { before: claimAudited(known) });
      if (known.claim) {
        const { pileId } = known.claim;
        await parts.journal.claims.release(site, probe, parts.clock.nowMs());
        parts.probes.setClaim(known, null);
        await parts.watch.reload(pileId);
      }
      return changed(known);
    },
  );

  api.delete(
    '/api/probes/:site/:probe',
    {
      config: { access: 'keeper', does: 'forgot a probe and all it said' },
      schema: { params: probeParams, response: { 200: forgottenSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      audit(request, { before: probeView(known) });
      await parts.forgetting.forget([{ site, probe }]);
      return { forgotten: 1, kept: 0 };
    },
  );

  api.post(
    '/api/probes/forget',
    {
      config: { access: 'owner', does: 'forgot many probes and all they said' },
      schema: { body: forgetSchema, response: { 200: forgottenSchema } },
    },
    async (request) => {
      const found = findProbes(parts.probes, { ...request.body, claimed: 'no' });
      const may = await parts.forgetting.forgettable(found);
      audit(request, { after: { forgotten: may.length, names: may.slice(0, mostNamesAudited).map(nameOf) } });
      await parts.forgetting.forget(may);
      return { forgotten: may.length, kept: found.length - may.length };
    },
  );

  api.put(
    '/api/probes/:site/:probe/calibration',
    {
      config: { access: 'keeper', does: 'calibrated a probe' },
      schema: { params: probeParams, body: calibrationSchema, response: { 200: probeSchema } },
    },
    async (request, reply) => {
      const { site, probe } = request.params;
      const known = parts.probes.get(site, probe);
      if (!known) return notFound(reply, 'probe', `${site}/${probe}`);
      audit(request, { before: { temperatureOffsetC: known.temperatureOffsetC } });
      await parts.journal.probes.setTemperatureOffset(site, probe, request.body.temperatureOffsetC);
      known.temperatureOffsetC = request.body.temperatureOffsetC;
      return changed(known);
    },
  );
}

/** The audit trail need not hold thousands of names. */
const mostNamesAudited = 20;
const nameOf = ({ site, probe }: KnownProbe) => `${site}/${probe}`;

function claimAudited({ claim }: KnownProbe) {
  return claim && { pile: claim.pileId, position: claim.position };
}
