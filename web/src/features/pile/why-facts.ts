/** What each warning rests on: which readings, which limits, which acts. */
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { type Position, positions } from '../../../../shared/names.ts';
import type { StageLimits } from '../../../../shared/stage.ts';
import { msPerHour } from '../../../../shared/units.ts';
import { type WarningKind, warningKinds } from '../../../../shared/warning.ts';

type LimitKey = keyof StageLimits;
type Rest = 'moisture' | 'forecast';

interface Footing {
  readonly limits: readonly LimitKey[];
  readonly places: readonly Position[];
  /** What else is weighed beside the probes. */
  readonly also: readonly Rest[];
  /** Whether what was done lately changes what is expected. */
  readonly minds: boolean;
}

const inPile: readonly Position[] = ['core', 'top', 'base', 'edge'];

export const footings: Record<WarningKind, Footing> = {
  'self-heating': { limits: [], places: inPile, also: [], minds: false },
  overheating: { limits: ['actC', 'lossC'], places: inPile, also: [], minds: false },
  'heat-doubted': { limits: ['actC'], places: inPile, also: [], minds: false },
  'overheating-soon': { limits: ['actC'], places: ['core', 'air'], also: ['forecast'], minds: true },
  'bad-smell': { limits: [], places: [], also: [], minds: true },
  'wrong-growth': { limits: [], places: [], also: [], minds: false },
  'hand-wet': { limits: ['moistureMinFrac', 'moistureMaxFrac'], places: [], also: ['moisture'], minds: true },
  'hand-dry': { limits: ['moistureMinFrac', 'moistureMaxFrac'], places: [], also: ['moisture'], minds: true },
  'heat-damage': { limits: ['lossC'], places: inPile, also: [], minds: false },
  drying: { limits: ['moistureMinFrac', 'moistureMaxFrac'], places: ['core'], also: ['moisture'], minds: true },
  stalling: {
    limits: ['comfortMinC', 'comfortMaxC', 'lengthMinH', 'lengthMaxH'],
    places: ['core', 'top', 'base', 'air'],
    also: ['moisture'],
    minds: true,
  },
  chilled: { limits: ['comfortMinC', 'comfortMaxC'], places: ['core', 'air'], also: [], minds: false },
  waterlogged: { limits: ['moistureMinFrac', 'moistureMaxFrac'], places: ['core'], also: ['moisture'], minds: true },
  uneven: { limits: [], places: ['core', 'top', 'base'], also: [], minds: true },
  'probe-silent': { limits: [], places: positions, also: [], minds: false },
  'probe-stuck': { limits: [], places: positions, also: [], minds: false },
  'probe-out': { limits: [], places: positions, also: [], minds: true },
};

/** Where one kind's page lies. */
export function whyPath(pileId: string, kind: WarningKind): string {
  return `/piles/${encodeURIComponent(pileId)}/why/${kind}`;
}

export function isWarningKind(text: string | undefined): text is WarningKind {
  return warningKinds.some((kind) => kind === text);
}

/** Acts that may still explain what the probes show: the judge gives a pile 18 hours after a hand, so a day covers it. */
const lately = 24 * msPerHour;

export function actsLately(acts: PileDetail['acts'], nowMs: number): PileDetail['acts'] {
  return acts
    .filter((act) => act.kind !== 'note' && nowMs - Date.parse(act.at) < lately)
    .sort((one, other) => other.at.localeCompare(one.at));
}

export interface WhyGroups {
  readonly present: readonly WarningKind[];
  readonly missing: readonly WarningKind[];
  readonly absent: readonly WarningKind[];
}

/** Each kind once: seen somewhere, else untellable somewhere, else looked for and not seen. */
export function whyGroups(evidence: PileDetail['evidence']): WhyGroups {
  const kinds = warningKinds.filter((kind) => evidence.some((one) => one.kind === kind));
  const has = (kind: WarningKind, found: 'present' | 'missing') =>
    evidence.some((one) => one.kind === kind && one.evidence === found);
  const present = kinds.filter((kind) => has(kind, 'present'));
  const missing = kinds.filter((kind) => !has(kind, 'present') && has(kind, 'missing'));
  return { present, missing, absent: kinds.filter((kind) => !present.includes(kind) && !missing.includes(kind)) };
}
