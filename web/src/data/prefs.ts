/**
 * How this person likes to read, remembered in this browser. It never sent to the server, save the name written beside
 * what the person acknowledges.
 */
import { z } from 'zod';
import { isHour12 } from '../../../shared/hour-cycle.ts';
import type { Reader } from './reader.ts';
import { prefsKey, recall, remember } from './remembered.ts';
import { createStore, useStore } from './store.ts';

const prefsSchema = z.object({
  unit: z.enum(['C', 'F']).catch('C'),
  zone: z.enum(['mine', 'site']).catch('mine'),
  clock: z.enum(['region', '12', '24']).catch('region'),
  shade: z.enum(['auto', 'light', 'dark']).catch('auto'),
  name: z.string().max(80).catch(''),
  /** BCP 47; '' for what the browser asks for. Of this device, while nobody who signs in chose another. */
  language: z.string().max(35).catch(''),
});
export type Prefs = z.infer<typeof prefsSchema>;

const tokenKey = 'branhearth.token';

export function readPrefs(text: string | null): Prefs {
  const parsed = safeJson(text);
  return prefsSchema.catch(() => prefsSchema.parse({})).parse(parsed);
}

function safeJson(text: string | null): unknown {
  try {
    return JSON.parse(text ?? '{}');
  } catch {
    return {};
  }
}

const prefs = createStore<Prefs>(readPrefs(recall(prefsKey)));

export function changePrefs(change: Partial<Prefs>): void {
  const next = { ...prefs.get(), ...change };
  prefs.set(next);
  remember(prefsKey, JSON.stringify(next));
}

/** Calls `act` whenever something is chosen. */
export const followPrefs = prefs.follow;

/** In which language this device is read; '' for what the browser asks for. */
export const languageOfDevice = (): string => prefs.get().language;

export function usePrefs(): Prefs {
  return useStore(prefs, (value) => value);
}

/** The unit of temperatures at this moment, for what is worded once. */
export const unitRead = (): Prefs['unit'] => prefs.get().unit;

let token = recall(tokenKey) ?? '';
export const bearerToken = () => token;
/** Whoever holds another token is another person: what the last one saw is forgotten first (live/last-answers.ts). */
export function setBearerToken(next: string): void {
  token = next;
  remember(tokenKey, next);
}

const regionHour12 = isHour12(globalThis.navigator?.language);

/** Whether this person reads hours with am and pm. */
function readsHour12(): boolean {
  const { clock } = prefs.get();
  return clock === 'region' ? regionHour12 : clock === '12';
}

/** Whose clock times are shown in. */
export function readerOf(zone: Prefs['zone'], siteZone: string | null | undefined, yearNow?: number): Reader {
  return {
    timeZone: zone === 'site' && siteZone ? siteZone : undefined,
    hour12: readsHour12(),
    ...(yearNow !== undefined && { yearNow }),
  };
}
