/** A line of the log as a person at a terminal reads it. */
import { z } from 'zod';

const lineSchema = z.looseObject({
  level: z.number(),
  time: z.number(),
  msg: z.string().default(''),
  err: z.looseObject({ message: z.string() }).optional(),
});

const nameOf = (level: number) => (level >= 50 ? 'error: ' : level >= 40 ? 'warning: ' : '');

/** @param json As pino writes it. @returns with a line feed, as it came where it is none of ours. */
export function terminalLine(json: string): string {
  let parsed: unknown;
  try {
    parsed = JSON.parse(json);
  } catch {
    return json;
  }
  const line = lineSchema.safeParse(parsed);
  if (!line.success) return json;
  const { level, time, msg, err } = line.data;
  const at = new Date(time).toTimeString().slice(0, 8);
  const why = err === undefined || msg.includes(err.message) ? '' : ` (${err.message})`;
  return `${at} ${nameOf(level)}${msg}${why}\n`;
}
