/**
 * Curves laid over each other, by the age of the batch or by the time since it began to warm. It never stretches time:
 * a slow batch stays slow.
 */
export type AlignBy = 'age' | 'warming';

export interface AgedCourse {
  /** One value per whole hour of age [°C]. */
  readonly coreC: readonly (number | null)[];
  readonly airC: readonly (number | null)[];
  /** Age at which it began to warm [h]; null when it never did. */
  readonly warmingAfterH: number | null;
}

/** Hour of age that counts as 0. A batch that never warmed has none when warming is asked for. */
export function zeroHour(course: Pick<AgedCourse, 'warmingAfterH'>, by: AlignBy): number | null {
  return by === 'age' ? 0 : course.warmingAfterH;
}

/**
 * Curves must share so many hours before their distance says anything [h]: half a day holds a night or a noon; our own choice, no
 * source.
 */
export const fewestSharedHours = 12;

/**
 * Root mean square of the difference over the hours both have [K].
 *
 * @param hours Only the first so many hours from the common zero are looked at.
 * @returns Null when fewer than twelve hours are shared.
 * @example curveDistanceK(levelAt(30), levelAt(33), 'age', 24) // => 3, where levelAt gives a course of one temperature
 */
export function curveDistanceK(one: AgedCourse, other: AgedCourse, by: AlignBy, hours: number): number | null {
  const [zero, otherZero] = [zeroHour(one, by), zeroHour(other, by)];
  if (zero === null || otherZero === null) return null;
  let sum = 0;
  let shared = 0;
  for (let hour = -Math.min(zero, otherZero); hour < hours; hour += 1) {
    const a = one.coreC[zero + hour] ?? null;
    const b = other.coreC[otherZero + hour] ?? null;
    if (a === null || b === null) continue;
    sum += (a - b) ** 2;
    shared += 1;
  }
  return shared < fewestSharedHours ? null : Math.sqrt(sum / shared);
}
