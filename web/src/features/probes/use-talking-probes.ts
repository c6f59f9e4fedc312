/** The probes that talk and are in no pile, those that spoke last, with which of them is getting warmer. */
import { useRef } from 'preact/hooks';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { isRising, type Seen, withSeen } from './rising.ts';
import { useProbePage } from './use-probe-page.ts';

export interface TalkingProbe {
  readonly probe: Probe;
  readonly name: string;
  readonly rises: boolean;
}

const mostOffered = 8;

/** In an order that stays while they speak. */
export function useTalkingProbes(): readonly TalkingProbe[] {
  const { value } = useProbePage({ claimed: 'no', order: 'newest' }, mostOffered);
  const seen = useRef(new Map<string, readonly Seen[]>());
  const probes = (value?.probes ?? []).filter(({ lastAt }) => lastAt !== null);
  return probes
    .map((probe) => {
      const key = `${probe.site}/${probe.probe}`;
      const { temperatureC } = probe.last;
      const all =
        temperatureC === undefined || probe.lastAt === null
          ? []
          : withSeen(seen.current.get(key) ?? [], { atMs: Date.parse(probe.lastAt), tempC: temperatureC });
      seen.current.set(key, all);
      return { probe, name: shownName(probe, probes), rises: isRising(all) };
    })
    .sort((one, other) => one.name.localeCompare(other.name));
}

/**
 * As people named the device; where it has several sensors, with which it is.
 * @example sensor "pile-board-01" of a device labelled "pile-board" that has others too // => "pile-board, 01"
 */
function shownName({ probe, device }: Probe, all: readonly Probe[]): string {
  if (device === undefined) return probe;
  const isOnlyOne = all.filter((other) => other.device?.label === device.label).length === 1;
  if (isOnlyOne) return device.label;
  const start = `${device.label.toLowerCase().replaceAll(/[ /.:]/g, '-')}-`;
  return `${device.label}, ${probe.startsWith(start) ? probe.slice(start.length) : probe}`;
}
