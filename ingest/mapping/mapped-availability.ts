/** Whether mapped devices are there, as the topics that their mappings name say. Bounded. */
import { BoundedMap } from '../../shared/bounded-map.ts';
import type { MappingInput } from '../../shared/contracts/mappings.ts';
import { jsonOf } from '../../shared/json-of.ts';
import { valueAt } from './json-pointer.ts';
import { matchFilter, wildcardCount } from './topic-filter.ts';

type OnStatus = (site: string, probe: string, online: boolean, atMs: number) => void;

interface Known {
  online: boolean | undefined;
  readonly probes: Map<string, { readonly site: string; readonly probe: string }>;
}

const rememberedDevices = 2_000;
const mostProbesOfOne = 200;

export class MappedAvailability {
  readonly #onStatus: OnStatus;
  readonly #devices = new BoundedMap<Known>(rememberedDevices);

  constructor(onStatus: OnStatus) {
    this.#onStatus = onStatus;
  }

  /** Takes what an availability topic says; a word that is neither of the two says nothing. */
  take({ availability }: MappingInput, topic: string, payload: string, nowMs: number): void {
    const captured = availability && matchFilter(availability.filter, topic);
    if (availability === undefined || captured === undefined) return;
    const word = wordAt(payload, availability.pointer);
    if (word !== availability.online && word !== availability.offline) return;
    const device = this.#deviceOf(keyOf(availability.filter, captured));
    device.online = word === availability.online;
    for (const { site, probe } of device.probes.values()) this.#onStatus(site, probe, device.online, nowMs);
  }

  /** Whoever measures is there, whatever was said of it before; what lay in the broker does not show that. */
  heard(
    { filter, availability }: MappingInput,
    topic: string,
    probes: readonly { readonly site: string; readonly probe: string }[],
    { nowMs, retained }: { readonly nowMs: number; readonly retained: boolean },
  ): void {
    const captured = availability && matchFilter(filter, topic);
    if (availability === undefined || captured === undefined) return;
    const device = this.#deviceOf(keyOf(availability.filter, captured.slice(0, wildcardCount(availability.filter))));
    const cameBack = device.online === false && !retained;
    if (cameBack) device.online = true;
    for (const { site, probe } of probes) {
      const name = `${site}/${probe}`;
      const isNew = !device.probes.has(name);
      if (isNew && device.probes.size >= mostProbesOfOne) continue;
      if (isNew) device.probes.set(name, { site, probe });
      if ((isNew && device.online !== undefined) || cameBack) this.#onStatus(site, probe, device.online ?? true, nowMs);
    }
  }

  #deviceOf(key: string): Known {
    const known = this.#devices.get(key) ?? { online: undefined, probes: new Map() };
    this.#devices.set(key, known);
    return known;
  }
}

const keyOf = (filter: string, captured: readonly string[]) => JSON.stringify([filter, ...captured]);

function wordAt(payload: string, pointer: string): string | undefined {
  if (pointer === '') return payload.trim();
  const found = valueAt(jsonOf(payload), pointer);
  return typeof found === 'object' || found === undefined ? undefined : String(found);
}
