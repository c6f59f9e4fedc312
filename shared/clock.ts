/**
 * The time as the server tells it.
 *
 * Live it is the machine's clock. On a scratch farm it runs faster, so that a week of a pile passes in minutes; probes
 * and server then share the same anchor.
 */
import { z } from 'zod';

export interface Clock {
  /** Now [epoch ms, whole]. */
  nowMs(): number;
  /** Seconds of the server per second of the machine; 1 when live. */
  readonly speed: number;
  /** Time that nobody sets, from any beginning [ms]; beside it a jump of `nowMs` is seen. */
  steadyMs?(): number;
}

export const liveClock: Clock = { nowMs: () => Date.now(), speed: 1, steadyMs: () => performance.now() };

/** `startMs` in server time was (or will be) at `anchorMs` of the machine; runs `speed` times as fast. */
export const fastClockSchema = z.object({
  startMs: z.number().int(),
  anchorMs: z.number().int(),
  speed: z.number().positive().max(1_000_000),
});
export type FastClockSetting = z.infer<typeof fastClockSchema>;

/**
 * @param machineNowMs reads the machine's clock [epoch ms].
 * @param machineSteadyMs reads the time beside it that nobody sets [ms].
 */
export function fastClock(
  setting: FastClockSetting,
  machineNowMs: () => number = Date.now,
  machineSteadyMs: () => number = () => performance.now(),
): Clock {
  return {
    nowMs: () => Math.round(setting.startMs + (machineNowMs() - setting.anchorMs) * setting.speed),
    speed: setting.speed,
    steadyMs: () => machineSteadyMs() * setting.speed,
  };
}
