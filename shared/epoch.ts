/**
 * Times as they are kept [epoch ms]. What lies before 1970 or after the year 9999, the last that RFC 3339 can write, was
 * not written by us.
 */
import { z } from 'zod';

export const lastEpochMs = 253_402_300_799_999;
export const epochMsSchema = z.number().min(0).max(lastEpochMs);
