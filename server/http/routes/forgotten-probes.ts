/** Probes that serve no pile, forgotten with all they said. */
import { forgetSchema, forgottenSchema } from '../../../shared/contracts/probes.ts';
import type { ForgetProbes } from '../../services/probes/forget-probes.ts';
import { findProbes } from '../../services/probes/list-probes.ts';
import { type KnownProbe, type ProbeBook, probeView } from '../../services/probes/probe-book.ts';
import type { Api } from '../api.ts';
import { audit } from '../audit-hook.ts';
import { notFound } from '../problem.ts';
import { probeParams } from './probes.ts';

interface ForgottenProbesParts {
  readonly probes: ProbeBook;
  readonly forgetting: ForgetProbes;
}

export function registerForgottenProbes(api: Api, parts: ForgottenProbesParts): void {
  api.delete(
    '/api/probes/:site/:probe',
    {
      config: { access: 'keeper', does: 'audit.did.forgot-probe-and-all-it-said' },
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
      config: { access: 'owner', does: 'audit.did.forgot-many-probes-and-all-they-said' },
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
}

/** The audit trail need not hold thousands of names. */
const mostNamesAudited = 20;
const nameOf = ({ site, probe }: KnownProbe) => `${site}/${probe}`;
