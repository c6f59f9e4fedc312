/** The time as the server tells it, carried on between two of its beats. */
export interface ServerClock {
  readonly serverMs: number;
  readonly steadyMs: number;
  readonly speed: number;
}

export function serverNowMs(clock: ServerClock, steadyNowMs: number): number {
  return clock.serverMs + (steadyNowMs - clock.steadyMs) * clock.speed;
}

/** How often words such as "4 min ago" are said anew [ms of the machine]. */
export function retellEveryMs(clock: ServerClock): number {
  return clock.speed > 1 ? 2_000 : 15_000;
}
