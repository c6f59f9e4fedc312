/**
 * The setup of a bed that was split off another: judged on from where that was laid, not as freshly laid.
 *
 * How the part lies is taken to be as the whole lay, where nobody said otherwise. It never carries limits or a person's
 * word that it is ready over: those are the part's own.
 */
import type { Act, Assumption, Cover, LaidFact } from '../../shared/contracts/domain/batch.ts';
import { bedAt } from './bed.ts';
import type { PileSetup } from './pile-setup.ts';

export function carriedOn(from: PileSetup, part: PileSetup): PileSetup {
  const splitMs = part.startedAtMs;
  const wasThere = bedAt(from, splitMs);
  const { massKg: wholeKg, ...laid } = from.recipe;
  const { massKg: partKg, shelter } = part.recipe;
  const depthM = isGiven(part, 'depthM') ? part.recipe.depthM : wasThere.depthM;
  const cover = isGiven(part, 'cover') ? part.recipe.cover : wasThere.cover;
  // Water was given to the whole; of what the part weighs it is as much again.
  const share = wholeKg === undefined || partKg === undefined ? undefined : partKg / wholeKg;
  const before = from.acts.filter(({ atMs }) => atMs < splitMs).map((act) => shareOf(act, share));
  return {
    ...part,
    startedAtMs: from.startedAtMs,
    assumed: assumedOf(from, part, { depthM, cover, shelter: laid.shelter }),
    recipe: { ...laid, ...(partKg === undefined ? {} : { massKg: partKg }), ...(shelter && { shelter }) },
    acts: [...before, ...layingActs(wasThere.depthM, depthM, wasThere.cover, cover, splitMs), ...part.acts],
    noted: [...(from.noted ?? []).filter(({ atMs }) => atMs < splitMs), ...(part.noted ?? [])],
  };
}

function isGiven({ assumed = [] }: PileSetup, fact: LaidFact): boolean {
  return !assumed.some((one) => one.fact === fact);
}

/** How damp the part was is not assumed: the water of the whole is followed up to here. */
function assumedOf(
  from: PileSetup,
  part: PileSetup,
  asTheWhole: Readonly<Partial<Record<LaidFact, Assumption['value'] | undefined>>>,
): Assumption[] {
  return (part.assumed ?? []).flatMap((one) => {
    if (one.fact === 'moistureFrac') return [];
    const value = asTheWhole[one.fact];
    if (value !== undefined) return [{ ...one, value, origin: 'as-the-whole' as const }];
    return from.assumed?.find(({ fact }) => fact === one.fact) ?? one;
  });
}

function shareOf(act: Act, share: number | undefined): Act {
  if (act.amountL === undefined) return act;
  const { amountL, ...bare } = act;
  return share === undefined ? bare : { ...bare, amountL: amountL * share };
}

/** Carried over and laid anew, as deep and under such a cover as the part lies. */
function layingActs(wasM: number, depthM: number, wasCover: Cover, cover: Cover, atMs: number): Act[] {
  const kind = depthM < wasM ? 'spread' : depthM > wasM ? 'heaped' : 'moved';
  const acts: Act[] = [kind === 'moved' ? { kind, atMs } : { kind, atMs, depthM }];
  if (cover === wasCover) return acts;
  // Covers are given as steps: off, and on once or twice.
  if (wasCover !== 'open') acts.push({ kind: 'uncovered', atMs });
  if (cover !== 'open') acts.push({ kind: 'covered', atMs });
  if (cover === 'closed') acts.push({ kind: 'covered', atMs });
  return acts;
}
