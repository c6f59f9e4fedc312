/** What columns of many tables may hold. */
import { z } from 'zod';
import { epochMsSchema as epochMs } from '../../epoch.ts';

export { epochMsSchema as epochMs } from '../../epoch.ts';

export const text = z.string();
export const maybeText = text.nullable();
export const maybeMs = epochMs.nullable();
export const flag = z.union([z.literal(0), z.literal(1)]);
export const count = z.number().int().min(0);
export const amount = z.number().min(0).max(1e9).nullable();
export const rank = z.number().int().min(0).max(3);
export const taken = { taken_by: maybeText, taken_until_ms: maybeMs };
