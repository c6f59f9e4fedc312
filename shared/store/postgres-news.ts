/**
 * Hears what other processes changed in a shared journal (LISTEN and NOTIFY). It never is the only bearer of anything:
 * what it tells of stands in tables, and the listener reads it there.
 */
import { Client } from 'pg';
import type { JournalNews } from './journal.ts';

export const newsChannel = 'branhearth';
const againMs = 1_000;
const beatMs = 15_000;

export interface NewsLine {
  close(): Promise<void>;
}

function newClient(url: string): Client {
  return new Client({
    connectionString: url,
    application_name: 'branhearth-news',
    connectionTimeoutMillis: 5_000,
    query_timeout: 5_000,
    keepAlive: true,
  });
}

export function hearNews(url: string, heard: (news: JournalNews) => void): NewsLine {
  let client: Client | undefined;
  let timer: NodeJS.Timeout | undefined;
  let closed = false;

  function again(broken: Client): void {
    if (client !== broken) return;
    client = undefined;
    clearTimeout(timer);
    void broken.end().catch(() => undefined);
    if (!closed) timer = setTimeout(connect, againMs);
  }

  function connect(): void {
    const opening = newClient(url);
    client = opening;
    opening.on('error', () => again(opening));
    opening.on('end', () => again(opening));
    opening.on('notification', ({ payload = '' }) => {
      const space = payload.indexOf(' ');
      heard({ topic: payload.slice(0, space), about: payload.slice(space + 1) });
    });
    opening
      .connect()
      .then(() => opening.query(`LISTEN ${newsChannel}`))
      .then(
        () => {
          if (client !== opening) return;
          heard({ topic: 'missed', about: '' });
          beat(opening);
        },
        () => again(opening),
      );
  }

  /** A server that was frozen or cut off says nothing at all. */
  function beat(on: Client): void {
    timer = setTimeout(() => {
      on.query('SELECT 1').then(
        () => {
          if (client === on && !closed) beat(on);
        },
        () => again(on),
      );
    }, beatMs);
  }

  connect();
  return {
    async close() {
      closed = true;
      clearTimeout(timer);
      const last = client;
      client = undefined;
      await last?.end().catch(() => undefined);
    },
  };
}
