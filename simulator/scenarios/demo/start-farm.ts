/**
 * Plays Saltmere to a broker: first its past, then as the clock goes. It never publishes a reading before the clock has
 * come to it.
 */
import { type FastClockSetting, fastClock } from '../../../shared/clock.ts';
import { farmOf } from '../../farm/farm.ts';
import { playFarm } from '../../farm/play-farm.ts';
import { mqttSink } from '../../publish/mqtt-sink.ts';
import { paceOut, type Sent } from '../../publish/pace.ts';
import type { DemoFarm } from './demo-farm.ts';

export interface StartFarmOptions {
  readonly farm: DemoFarm;
  readonly clock: FastClockSetting;
  readonly mqttUrl: string;
  readonly signal?: AbortSignal | undefined;
  readonly username?: string | undefined;
  readonly password?: string | undefined;
  /** Called once, when the past has been published and the farm runs with the clock. */
  readonly onLive?: (() => void) | undefined;
}

/** When the first pile of the farm can be laid, for a clock that starts at `clockStartMs` [epoch ms]. */
export function farmStartMs(farm: DemoFarm, clockStartMs: number): number {
  return clockStartMs - farm.historyH * 3_600_000;
}

export async function startFarm(options: StartFarmOptions): Promise<Sent> {
  const { farm, clock: setting, mqttUrl, signal } = options;
  const clock = fastClock(setting);
  const startMs = farmStartMs(farm, setting.startMs);
  const sink = await mqttSink({
    url: mqttUrl,
    principals: farm.piles.flatMap(({ site, probes }) => probes.map(({ name }) => ({ site, probe: name }))),
    username: options.username,
    password: options.password,
  });
  let live = false;
  const untilMs = startMs + farm.scenario.days * 86_400_000;
  try {
    return await paceOut(playFarm(farmOf(farm.scenario, farm.seed, startMs), { untilMs }), sink, {
      clock,
      signal,
      onSent: (sendAtMs) => {
        if (live || sendAtMs < clock.nowMs() - 600_000) return;
        live = true;
        options.onLive?.();
      },
    });
  } finally {
    await sink.close();
  }
}
