/** In which order the piles stand on the home page, and the sentence above them. */
import { gravityOf } from '../../../../core/alarms/precedence.ts';
import { asksForSomebody, speaks } from '../../../../core/alarms/standing.ts';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { tones } from '../../../../shared/contracts/piles.ts';
import type { Site } from '../../../../shared/contracts/sites.ts';
import { capital, countWord } from '../../ui/format/words.ts';

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
  return comparePress(one, other) || one.name.localeCompare(other.name, 'en');
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
    return (first && second ? comparePress(first, second) : 0) || one.name.localeCompare(other.name, 'en');
  });
}

/** The sentence over the home page: it must never sound calmer than the most pressing pile. */
export function openingSentence(piles: readonly PileSummary[]): string {
  const count = (tone: PileSummary['tone']) => piles.filter((pile) => pile.tone === tone).length;
  const danger = count('danger');
  const act = count('act');
  const watch = count('watch');
  const ofAll = (some: number) => {
    if (piles.length === 1) return 'Your pile';
    if (some === piles.length) return piles.length === 2 ? 'Both piles' : `All ${countWord(piles.length)} piles`;
    return `${capital(countWord(some))} of ${countWord(piles.length)} piles`;
  };
  const verb = (some: number, one: string, many: string) => (some === 1 ? one : many);
  if (danger > 0)
    return `${ofAll(danger)} ${verb(danger, 'is', 'are')} in danger. See to ${verb(danger, 'it', 'them')} first.`;
  if (act > 0) return `${ofAll(act)} ${verb(act, 'needs', 'need')} you now.`;
  if (watch > 0)
    return `Nothing needs doing now, but ${verb(watch, 'one pile wants', `${countWord(watch)} piles want`)} watching.`;
  return piles.length === 1
    ? 'Nothing needs doing at your pile now.'
    : `Nothing needs doing at your ${countWord(piles.length)} piles now.`;
}

/**
 * The same out of reach of the server, where nothing is known of now.
 *
 * @example asLastHeard('Nothing needs doing at your pile now.') // => "When last heard: nothing needs doing at your pile."
 */
export function asLastHeard(sentence: string): string {
  return `When last heard: ${sentence.charAt(0).toLowerCase()}${sentence.slice(1).replace(' now', '')}`;
}
