/**
 * Words, and findings that say nothing stands, that depend on a stage's limits alone: made once, as they are asked for every minute.
 */
import type { StageLimits } from '../../shared/stage.ts';

export function perLimits<T extends string | object>(build: (limits: StageLimits) => T): (limits: StageLimits) => T {
  const made = new WeakMap<StageLimits, T>();
  return (limits) => {
    let one = made.get(limits);
    if (one === undefined) {
      one = build(limits);
      made.set(limits, one);
    }
    return one;
  };
}
