/**
 * What can be done to a practice pile as it lies now, with usual amounts. It never gives away what is hidden: every
 * probe may be pushed back, whether it needs it or not.
 */
import type { Cover } from '../../../../shared/contracts/domain/batch.ts';
import type {
  PracticeAct,
  PracticeActKind,
  PracticeScenario,
} from '../../../../simulator/practice/scenarios/practice-scenario.ts';

export interface PileSeen {
  readonly depthM: number;
  readonly cover: Cover;
  readonly shed: 'closed' | 'open';
  readonly inShade: boolean;
  readonly fanOff: boolean;
}

/** One act, or the same act with one of several amounts, the usual one first offered. */
export interface Offer {
  readonly id: string;
  readonly choices: readonly PracticeAct[];
  readonly usual: number;
}

export interface OfferGroup {
  readonly id: 'look' | 'open' | 'keep' | 'probes' | 'end';
  readonly offers: readonly Offer[];
}

const groupOf: Record<PracticeActKind, OfferGroup['id']> = {
  squeeze: 'look',
  'look-and-smell': 'look',
  turn: 'open',
  spread: 'open',
  heap: 'open',
  'add-dry-bran': 'open',
  water: 'keep',
  cover: 'keep',
  uncover: 'keep',
  shade: 'keep',
  'close-shed': 'keep',
  'open-shed': 'keep',
  'fan-off': 'keep',
  'reseat-probe': 'probes',
  finish: 'end',
};
const groupOrder: readonly OfferGroup['id'][] = ['probes', 'look', 'open', 'keep', 'end'];

const litres = [1, 2, 4, 6, 9, 12, 16, 20, 25, 30];
const branKg = [5, 10, 15, 20, 25, 30, 40];
const depthsM = [0.08, 0.1, 0.12, 0.14, 0.16, 0.18, 0.2, 0.22, 0.25, 0.28, 0.32, 0.36, 0.4, 0.45, 0.5, 0.6];

export function offersFor(scenario: PracticeScenario, seen: PileSeen): OfferGroup[] {
  const offers = scenario.tools.flatMap((kind) =>
    offersOf(kind, scenario, seen).map((offer) => ({ group: groupOf[kind], offer })),
  );
  return groupOrder.flatMap((id) => {
    const own = offers.filter(({ group }) => group === id).map(({ offer }) => offer);
    return own.length === 0 ? [] : [{ id, offers: own }];
  });
}

function offersOf(kind: PracticeActKind, scenario: PracticeScenario, seen: PileSeen): Offer[] {
  const one = (act: PracticeAct): Offer[] => [{ id: actId(act), choices: [act], usual: 0 }];
  const among = (choices: readonly PracticeAct[], usual: number): Offer[] =>
    choices.length === 0 ? [] : [{ id: kind, choices, usual: Math.min(choices.length - 1, Math.max(0, usual)) }];
  switch (kind) {
    case 'water':
      return among(
        litres.map((amount) => ({ kind, litres: amount })),
        2,
      );
    case 'add-dry-bran':
      return among(
        branKg.map((massKg) => ({ kind, massKg })),
        1,
      );
    case 'spread': {
      const thinner = depthsM.filter((depthM) => depthM < seen.depthM - 0.015);
      return among(
        thinner.map((depthM) => ({ kind, depthM })),
        nearest(thinner, seen.depthM * 0.65),
      );
    }
    case 'heap': {
      const deeper = depthsM.filter((depthM) => depthM > seen.depthM + 0.015);
      return among(
        deeper.map((depthM) => ({ kind, depthM })),
        nearest(deeper, seen.depthM * 1.5),
      );
    }
    case 'cover':
      return (['breathable', 'closed'] as const).flatMap((cover) => (seen.cover === cover ? [] : one({ kind, cover })));
    case 'uncover':
      return seen.cover === 'open' ? [] : one({ kind });
    case 'close-shed':
      return seen.shed === 'closed' ? [] : one({ kind });
    case 'open-shed':
      return seen.shed === 'closed' ? one({ kind }) : [];
    case 'shade':
      return seen.inShade ? [] : one({ kind });
    case 'fan-off':
      return seen.fanOff ? [] : one({ kind });
    case 'reseat-probe':
      return scenario.probes.flatMap(({ name, position }) => (position === 'air' ? [] : one({ kind, probe: name })));
    default:
      return one({ kind });
  }
}

function actId(act: PracticeAct): string {
  if (act.kind === 'cover') return `cover-${act.cover}`;
  return act.kind === 'reseat-probe' ? `reseat-${act.probe}` : act.kind;
}

function nearest(values: readonly number[], wanted: number): number {
  return values.reduce(
    (best, value, i) => (Math.abs(value - wanted) < Math.abs((values[best] ?? 0) - wanted) ? i : best),
    0,
  );
}
