/** In which order the piles stand on the home page, and the sentence above them. */

import { gravityOf } from '../../../../core/alarms/precedence.ts';
import { asksForSomebody, speaks } from '../../../../core/alarms/standing.ts';
import { compareNames } from '../../../../shared/compare-names.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { tones } from '../../../../shared/contracts/piles.ts';
import type { Site } from '../../../../shared/contracts/sites.ts';

export interface SiteGroup {
  readonly id: string;
  readonly name: string;
  readonly piles: readonly PileSummary[];
}

const press = (pile: PileSummary) => tones.indexOf(pile.tone);

function gravestKind(pile: PileSummary): number {
  return Math.min(Number.MAX_SAFE_INTEGER, ...pile.alarms.filter(speaks).map(gravityOf));
}

/** The more pressing first; among equals what nobody has acknowledged, then what harms sooner. */
function comparePress(one: PileSummary, other: PileSummary): number {
  return (
    press(other) - press(one) ||
    Number(unacknowledgedCount(other) > 0) - Number(unacknowledgedCount(one) > 0) ||
    gravestKind(one) - gravestKind(other) ||
    unacknowledgedCount(other) - unacknowledgedCount(one)
  );
}

/** Then by name, so that nothing jumps about. */
export function byPress(one: PileSummary, other: PileSummary): number {
  return comparePress(one, other) || byName(one, other);
}

export function byName(one: PileSummary, other: PileSummary): number {
  return compareNames(one.name, other.name);
}

/** Warnings nobody has acknowledged yet and no other explains. */
export function unacknowledgedCount(pile: PileSummary): number {
  return pile.alarms.filter(asksForSomebody).length;
}

export function groupBySite(piles: readonly PileSummary[], sites: readonly Site[]): SiteGroup[] {
  const ids = [...new Set(piles.map((pile) => pile.site))];
  const groups = ids.map((id) => ({
    id,
    name: sites.find((site) => site.id === id)?.name ?? id,
    piles: piles.filter((pile) => pile.site === id).sort(byPress),
  }));
  return groups.sort((one, other) => {
    const [first, second] = [one.piles[0], other.piles[0]];
    return (first && second ? comparePress(first, second) : 0) || compareNames(one.name, other.name);
  });
}

export interface Opening {
  /** How the most pressing piles are. */
  readonly what: PileSummary['tone'];
  /** Those that are so, of all: the only one, both, all, or some. */
  readonly share: 'only' | 'both' | 'all' | 'other';
  readonly someCount: number;
  readonly pileCount: number;
}

/** What stands over the home page: it must never sound calmer than the most pressing pile. */
export function openingOf(piles: readonly PileSummary[]): Opening {
  const what = tones.findLast((tone) => piles.some((pile) => pile.tone === tone)) ?? 'calm';
  const pileCount = piles.length;
  const someCount = piles.filter(({ tone }) => tone === what).length;
  const ofAll = someCount === pileCount ? (pileCount === 2 ? 'both' : 'all') : 'other';
  return { what, share: pileCount === 1 ? 'only' : ofAll, someCount, pileCount };
}
