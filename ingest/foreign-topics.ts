/**
 * The topics beside ours that are heard, and why: a person mapped them, devices that are known by themselves speak
 * there, or programs foretell the air.
 */
import type { MappingInput } from '../shared/contracts/mappings.ts';
import { hubStatusTopic } from '../shared/published-topics.ts';
import type { ForeignFilter, IngestLog } from './commit/inbound-source.ts';
import { acknowledgeFilter, airAheadFilter } from './decode/topic.ts';
import type { DeviceListeners } from './devices/device-memory.ts';
import { type Devices, recogniseDevices } from './devices/recognise-devices.ts';
import { mappingProblem } from './mapping/mapping-problem.ts';
import { brokerFilter } from './mapping/topic-filter.ts';

export interface ForeignTopicsParts extends DeviceListeners {
  readonly root: string;
  readonly log: IngestLog;
  readonly mappings: readonly MappingInput[];
  readonly recognisesDevices: boolean;
  readonly hearsAirAhead: boolean;
  readonly hearsHubs: boolean;
  /** `filters` are others than before. */
  changed(): void;
}

/** Devices introduce themselves many at a time, all at once where a broker kept it. */
const devicesGatheredMs = 100;

export class ForeignTopics {
  /** Absent where devices are read by mappings alone. */
  readonly devices: Devices | undefined;
  readonly #parts: ForeignTopicsParts;
  #mappings: readonly MappingInput[];
  #later: NodeJS.Timeout | undefined;

  constructor(parts: ForeignTopicsParts) {
    const { root, onStatus, onDevice } = parts;
    this.#parts = parts;
    this.#mappings = workingMappings(parts.mappings, parts.log);
    this.devices = parts.recognisesDevices
      ? recogniseDevices({ root, onStatus, onDevice, filtersChanged: () => this.#devicesChanged() })
      : undefined;
  }

  /** Those in force. */
  mappings(): readonly MappingInput[] {
    return this.#mappings;
  }

  /** One that cannot work is left out and logged. @returns Those that are new, or changed. */
  setMappings(mappings: readonly MappingInput[]): readonly MappingInput[] {
    const before = new Set(this.#mappings.map((mapping) => JSON.stringify(mapping)));
    this.#mappings = workingMappings(mappings, this.#parts.log);
    this.#parts.changed();
    return this.#mappings.filter((mapping) => !before.has(JSON.stringify(mapping)));
  }

  /** What to hear at an outside broker. */
  filters(): ForeignFilter[] {
    const { root, hearsAirAhead, hearsHubs } = this.#parts;
    return [
      ...(hearsAirAhead ? [{ filter: airAheadFilter(root), qos: 1 as const, isOptional: true }] : []),
      ...(hearsHubs ? hubFilters(root) : []),
      ...(this.devices?.filters() ?? []).map(({ filter, timed }) => ({
        filter,
        qos: timed === true ? (1 as const) : (0 as const),
        isOptional: true,
      })),
      // Last, so that a filter that somebody wrote counts as they meant it.
      ...this.#mappings.flatMap(mappedFilters).map((filter) => ({ filter, qos: 1 as const, isOptional: false })),
    ];
  }

  stop(): void {
    clearTimeout(this.#later);
  }

  #devicesChanged(): void {
    clearTimeout(this.#later);
    this.#later = setTimeout(() => this.#parts.changed(), devicesGatheredMs).unref();
  }
}

/** What is not for us need not be heard. */
function mappedFilters({ filter, values, availability }: MappingInput): string[] {
  if (values.length === 0) return [];
  return [filter, ...(availability === undefined ? [] : [availability.filter])].map(brokerFilter);
}

/** Nothing waits for us there: a press of an hour ago is none. */
const hubFilters = (root: string): ForeignFilter[] => [
  { filter: hubStatusTopic, qos: 0, isOptional: true },
  { filter: acknowledgeFilter(root), qos: 0, isOptional: true, saysWhetherKept: true },
];

function workingMappings(mappings: readonly MappingInput[], log: IngestLog): readonly MappingInput[] {
  return mappings.filter((mapping) => {
    const problem = mappingProblem(mapping);
    if (problem !== undefined) log.error({ mapping, problem }, 'a mapping cannot work and is left out');
    return problem === undefined;
  });
}
