/** The clock a run keeps to, by --clock or BRANHEARTH_CLOCK, --speed and --start, and the instant of its hour 0. */
import { type Clock, fastClock, fastClockSchema } from '../../shared/clock.ts';
import { ConfigError } from '../../shared/errors.ts';

export interface ClockChoice {
  readonly clock: Clock;
  /** Hour 0; what was before it is history [epoch ms]. */
  readonly hourZeroMs: number;
}

export interface ClockOptions {
  readonly clockText: string | undefined;
  readonly speed: number;
  readonly start: string | undefined;
  readonly durationH: number;
}

export function chooseClock({ clockText, speed, start, durationH }: ClockOptions, nowMs = Date.now()): ClockChoice {
  const given = start === undefined || start === 'now' ? undefined : Date.parse(start);
  if (given !== undefined && Number.isNaN(given)) {
    throw new ConfigError(`Cannot start as --start must be a date and time or "now": current value is "${start}"`);
  }
  if (clockText !== undefined && clockText !== '') {
    const setting = readSetting(clockText);
    return { clock: fastClock(setting), hourZeroMs: given ?? setting.startMs };
  }
  // Nothing may carry a time ahead of the machine's clock, which a server without a clock of its own goes by.
  const endsNowMs = nowMs - (speed > 1 ? durationH * 3_600_000 : 0);
  const hourZeroMs = Math.round(given ?? (start === 'now' ? nowMs : endsNowMs));
  return { clock: fastClock({ startMs: hourZeroMs, anchorMs: nowMs, speed }), hourZeroMs };
}

function readSetting(text: string) {
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch (cause) {
    throw new ConfigError(`Cannot read the server clock as it must be JSON: current value is ${text}`, { cause });
  }
  const checked = fastClockSchema.safeParse(data);
  if (checked.success) return checked.data;
  const [issue] = checked.error.issues;
  throw new ConfigError(
    `Cannot use the server clock as ${issue?.path.join('.') ?? 'it'} is wrong: ${issue?.message ?? 'unknown'}`,
  );
}
