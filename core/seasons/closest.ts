/**
 * Which past batches went like a running one so far, and were laid like it. It never foretells: that two batches went
 * alike so far does not say that they will end alike.
 */
import type { GivenRecipe } from '../../shared/contracts/domain/batch.ts';
import { type AgedCourse, curveDistanceK } from './align.ts';
import { meanOf } from './course.ts';

export interface Laid extends AgedCourse {
  readonly id: string;
  /** As given: what was not is no difference. */
  readonly recipe: GivenRecipe;
}

export interface Closeness {
  readonly id: string;
  /** Root mean square between the cores so far [K]. */
  readonly curveK: number;
  /** How differently they were laid and how different the air was, in kelvins of curve that weigh as much. */
  readonly conditionK: number;
  readonly distanceK: number;
}

/**
 * What a difference in condition weighs, in kelvins between the curves: of the air [K/K], of the depth [K/m], of the moisture [K per 1],
 * another material and another cover [K]. Our own choice, no source: a hand's breadth of depth or five points of moisture weigh like two
 * kelvins, another material like four.
 */
const perAirK = 0.5;
const perDepthM = 20;
const perMoistureFrac = 40;
const otherMaterialK = 4;
const otherCoverK = 1;

/** @param hours Age of the running batch [h]. */
export function closestBatches(running: Laid, past: readonly Laid[], hours: number): Closeness[] {
  const found: Closeness[] = [];
  for (const other of past) {
    const curveK = curveDistanceK(running, other, 'age', hours);
    if (other.id === running.id || curveK === null) continue;
    const conditionK = conditionDistanceK(running, other, hours);
    found.push({ id: other.id, curveK, conditionK, distanceK: Math.hypot(curveK, conditionK) });
  }
  return found.sort((a, b) => a.distanceK - b.distanceK);
}

function conditionDistanceK(one: Laid, other: Laid, hours: number): number {
  const air = [one, other].map(({ airC }) => meanOf(airC.slice(0, hours)));
  const airK = air[0] == null || air[1] == null ? 0 : air[0] - air[1];
  const [a, b] = [one.recipe, other.recipe];
  return Math.hypot(
    perAirK * airK,
    perDepthM * apart(a.depthM, b.depthM),
    perMoistureFrac * apart(a.moistureFrac, b.moistureFrac),
    differ(a.material, b.material) ? otherMaterialK : 0,
    differ(a.cover, b.cover) ? otherCoverK : 0,
  );
}

function apart(one: number | undefined, other: number | undefined): number {
  return one === undefined || other === undefined ? 0 : one - other;
}

function differ(one: string | undefined, other: string | undefined): boolean {
  return one !== undefined && other !== undefined && one !== other;
}
