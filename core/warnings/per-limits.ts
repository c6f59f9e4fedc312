/**
 * Words, and findings that say nothing stands, that depend on a stage's limits alone: made once, as they are asked for every minute.
 */
import type { StageLimits } from '../../shared/stage.ts';

export function perLimits<T extends string | object>(build: (limits: StageLimits) => T): (limits: StageLimits) => T {
  const made = new WeakMap<StageLimits, T>();
  /** Of the pile before, which is nearly always the same one, or of the same stage. */
  let last: { readonly limits: StageLimits; readonly one: T } | undefined;
  return (limits) => {
    if (last?.limits === limits) return last.one;
    const one = made.get(limits) ?? build(limits);
    made.set(limits, one);
    last = { limits, one };
    return one;
  };
}
