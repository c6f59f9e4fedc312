/** Writes readings as CSV (RFC 4180), one row per reading. */
import { once } from 'node:events';
import type { Writable } from 'node:stream';
import type { FarmMessage } from '../farm/play-farm.ts';
import type { Sink } from './sink.ts';

const header = 'sent_at,measured_at,site,probe,temperature_c,humidity_pct,moisture_pct,co2_ppm,battery_v\r\n';

export function csvSink(out: Writable): Sink {
  let begun = false;
  return {
    async send(message: FarmMessage) {
      if (message.kind !== 'reading') return;
      const row = begun ? rowOf(message) : header + rowOf(message);
      begun = true;
      if (!out.write(row)) await once(out, 'drain');
    },
    async close() {
      if (!begun) out.write(header);
      if (out === process.stdout) return;
      out.end();
      await once(out, 'finish');
    },
  };
}

function rowOf(message: Extract<FarmMessage, { kind: 'reading' }>): string {
  const { temperature, humidity, moisture, co2, battery } = message.values;
  const numbers = [temperature, humidity, moisture, co2, battery].map((value) => value ?? '');
  const times = [message.sendAtMs, message.atMs].map((ms) => new Date(ms).toISOString());
  return `${[...times, message.site, message.probe, ...numbers].join(',')}\r\n`;
}
