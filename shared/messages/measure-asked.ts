/** Whether what is said asks for a thermometer in a hand, so that whoever shows it can lead to where that is written down. */
import type { Message, MessageCode } from './message.ts';

/** A test holds that these are the texts of warnings that name a long-stem thermometer. */
export const asksToMeasure: ReadonlySet<MessageCode> = new Set<MessageCode>([
  'warnings.core.by-hand',
  'warnings.self-heating.todo.measure',
  'warnings.heat-doubted.todo.closed',
  'warnings.heat-doubted.todo.turn',
  'warnings.probe-silent.todo.core',
  'warnings.probe-stuck.todo',
  'warnings.lost.todo',
]);

export function isMeasureAsked(said: Message): boolean {
  if (said.code === 'verbatim') return false;
  if (said.code === 'paragraph') return said.params.parts.some(isMeasureAsked);
  if (asksToMeasure.has(said.code)) return true;
  return Object.values(said.params as Record<string, unknown>).some(
    (value) => typeof value === 'object' && value !== null && 'code' in value && isMeasureAsked(value as Message),
  );
}
