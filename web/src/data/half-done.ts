/**
 * What somebody has half written on this device, by name. It outlasts the page and a session that ran out, and is
 * never shown to anybody else: it goes when its writer signs out, or when another person writes here.
 */
import type { z } from 'zod';
import { halfDoneKey } from './half-done-key.ts';
import { whoWrites } from './me.ts';
import { forget, recall, remember } from './remembered.ts';
import { createStore, useStore } from './store.ts';

/** What nobody went back to for so long is forgotten. */
const longestMs = 30 * 86_400_000;

interface HalfDone {
  readonly value: unknown;
  /** By this device's clock [epoch ms]. */
  readonly writtenMs: number;
}
type All = Readonly<Record<string, HalfDone>>;

/** As a string, so that whoever follows it sees what pages beside this one wrote too. */
const stored = createStore<string | null>(recall(halfDoneKey));

if (typeof window !== 'undefined') addEventListener('branhearth:signed-out', () => stored.set(recall(halfDoneKey)));

const writerId = () => whoWrites()?.id ?? '';

function all(): All {
  try {
    const { of, things } = JSON.parse(stored.get() ?? '{}') as { of?: unknown; things?: All };
    return of === writerId() && typeof things === 'object' && things !== null ? things : {};
  } catch {
    return {};
  }
}

function keep(things: All): void {
  const text = Object.keys(things).length === 0 ? null : JSON.stringify({ of: writerId(), things });
  // Where storage is forbidden or full it is kept for as long as the page.
  stored.set(text);
  if (text === null) forget(halfDoneKey);
  else remember(halfDoneKey, text);
}

export function keepHalfDone(name: string, value: unknown): void {
  stored.set(recall(halfDoneKey) ?? stored.get());
  const nowMs = Date.now();
  const young = Object.entries(all()).filter(([, { writtenMs }]) => nowMs - writtenMs < longestMs);
  keep({ ...Object.fromEntries(young), [name]: { value, writtenMs: nowMs } });
}

export function forgetHalfDone(name: string): void {
  const { [name]: gone, ...others } = all();
  if (gone) keep(others);
}

/** @returns Undefined also for what an earlier version kept in another shape. */
export function halfDone<Schema extends z.ZodType>(name: string, schema: Schema): z.output<Schema> | undefined {
  const one = all()[name];
  const read = one && Date.now() - one.writtenMs < longestMs ? schema.safeParse(one.value) : undefined;
  return read?.success ? read.data : undefined;
}

/** Draws anew when something is half done, or is not any more. @returns Their names. */
export function useHalfDone(): readonly string[] {
  const names = useStore(stored, () => Object.keys(all()).join('\n'));
  return names.split('\n');
}
