import type { FieldParams } from './made/params/field.ts';

/** What a schema says of its own when it refuses: a code of the catalogue, of which `fieldFault` makes a message. */
export const fieldCode = (code: keyof FieldParams): string => code;
