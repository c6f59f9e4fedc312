import { type MappingInput, mappingInputSchema } from '../../shared/contracts/mappings.ts';

/** A mapping of a single value, as it may be written. */
export const oneValue = (mapping: Readonly<Record<string, unknown>>): MappingInput => mappingInputSchema.parse(mapping);
