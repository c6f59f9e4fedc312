/** Topics on which devices of the families speak, by their shape alone. */
import { matchFilter } from '../mapping/topic-filter.ts';
import { discoveryFilters } from './discovery-message.ts';
import { deviceFamilies } from './families.ts';
import type { DeviceFilter } from './family.ts';

const ofDiscovery: readonly DeviceFilter[] = discoveryFilters.map((filter) => ({ filter }));
const ofFamilies = deviceFamilies.flatMap((family) => family.filters);

/** What is heard whether anybody introduced themselves or not. */
export const standingFilters: readonly DeviceFilter[] = [...ofFamilies, ...ofDiscovery];

export function filterAmong(topic: string, filters: readonly DeviceFilter[]): string | undefined {
  return filters.find(({ filter }) => matchFilter(filter, topic) !== undefined)?.filter;
}

export const isOf = (topic: string, filters: readonly DeviceFilter[]) => filterAmong(topic, filters) !== undefined;
export const isFamilyTopic = (topic: string) => isOf(topic, ofFamilies);
export const isDiscoveryTopic = (topic: string) => isOf(topic, ofDiscovery);
export const isDeviceTopic = (topic: string) => isOf(topic, standingFilters);
