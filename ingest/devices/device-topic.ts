/** Topics on which devices of the families speak, by their shape alone. */

import { matchFilter } from '../mapping/topic-filter.ts';
import { discoveryFilters } from './discovered-devices.ts';
import { deviceFamilies } from './families.ts';

const filters = [
  ...discoveryFilters,
  ...deviceFamilies.flatMap((family) => family.filters.map(({ filter }) => filter)),
];

export const isDeviceTopic = (topic: string): boolean =>
  filters.some((filter) => matchFilter(filter, topic) !== undefined);
