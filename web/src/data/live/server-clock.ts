/**
 * web/live/house-clock.ts: the time as the house tells it, carried on between two of its beats.
 *
 * Takes:  what the house said (time, speed) and the machine's steady clock when it said so.
 * Gives:  the time of the house now. A scratch farm runs hundreds of times as fast as the browser.
 */
export interface HouseClock {
  readonly houseMs: number;
  readonly steadyMs: number;
  readonly speed: number;
}

export function houseNowMs(clock: HouseClock, steadyNowMs: number): number {
  return clock.houseMs + (steadyNowMs - clock.steadyMs) * clock.speed;
}

/** How often words such as "4 min ago" are said anew [ms of the machine]. */
export function retellEveryMs(clock: HouseClock): number {
  return clock.speed > 1 ? 2_000 : 15_000;
}
