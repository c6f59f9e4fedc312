/** A reading as a probe writes it on the wire. */
import type { Quantity } from '../../shared/quantity.ts';
import type { Values } from '../probes/probe.ts';

export const payloadForms = ['object', 'senml'] as const;
export type PayloadForm = (typeof payloadForms)[number];

/** Root of all topics when none is chosen. */
export const defaultRoot = 'piles';

export function readingTopic(root: string, site: string, probe: string): string {
  return `${root}/${site}/${probe}/reading`;
}

export function statusTopic(root: string, site: string, probe: string): string {
  return `${root}/${site}/${probe}/status`;
}

/** Units of RFC 8428, section 12.1, for what our probes measure. */
const senmlUnits: Record<Quantity, string> = {
  temperature: 'Cel',
  humidity: '%RH',
  moisture: '%',
  co2: 'ppm',
  battery: 'V',
  charge: '%EL',
  rssi: 'dBm',
};

export function readingPayload(form: PayloadForm, site: string, probe: string, atMs: number, values: Values): string {
  return form === 'senml' ? senml(site, probe, atMs, values) : object(atMs, values);
}

function object(atMs: number, values: Values): string {
  return JSON.stringify({ ...values, time: new Date(atMs).toISOString() });
}

/** One record per value; name and time stand once, in the first. */
function senml(site: string, probe: string, atMs: number, values: Values): string {
  const records = quantitiesOf(values).map(([quantity, v]) => ({ n: quantity, u: senmlUnits[quantity], v }));
  const [first, ...rest] = records;
  return JSON.stringify([{ bn: `${site}:${probe}:`, bt: atMs / 1000, ...first }, ...rest]);
}

function quantitiesOf(values: Values): [Quantity, number][] {
  return Object.entries(values).filter((entry): entry is [Quantity, number] => entry[1] !== undefined);
}
