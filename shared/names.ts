/** The names sites and probes may carry, and the places a probe may sit in a pile. */
import { z } from 'zod';
import { fieldCode } from './messages/field-code.ts';

/** A site or probe name as it stands in a topic: 1-64 of a-z, 0-9, hyphen, underscore. */
export const namePattern = /^[a-z0-9_-]{1,64}$/;

export const nameSchema = z.string().regex(namePattern, fieldCode('field.name'));

/** The site of devices that are read without a mapping and whose sender has no key of a site. */
export const deviceSite = 'devices';

/** Where in (or beside) a pile a probe sits. */
export const positions = ['core', 'top', 'base', 'edge', 'air'] as const;
export const positionSchema = z.enum(positions);
export type Position = z.infer<typeof positionSchema>;

/** The stages of a culture that are watched as piles. */
export const stages = ['bran', 'soil'] as const;
export const stageSchema = z.enum(stages);
export type Stage = z.infer<typeof stageSchema>;
