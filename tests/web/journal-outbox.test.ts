/**
 * What waits on a device: sent once each, whatever breaks and whenever.
 */
import fc from 'fast-check';
import { expect, test } from 'vitest';
import { ApiProblem, NoAnswer } from '../../web/src/data/client.ts';
import {
  packetSize,
  type Senders,
  sendWaiting,
  type WaitingEntry,
  type WaitingStore,
} from '../../web/src/features/journal/outbox.ts';

function memoryStore(entries: readonly WaitingEntry[], photos: Record<string, Blob> = {}) {
  const kept = new Map(entries.map((one) => [one.id, one]));
  const pictures = new Map(Object.entries(photos));
  const store: WaitingStore = {
    entries: async () => [...kept.values()].sort((one, other) => one.writtenMs - other.writtenMs),
    entry: async (id) => kept.get(id),
    put: async (entry) => void kept.set(entry.id, entry),
    remove: async (id) => void kept.delete(id),
    photo: async (id) => pictures.get(id),
    removePhoto: async (id) => void pictures.delete(id),
  };
  return { store, kept, pictures };
}

/** For what takes nothing back. */
const nothingTaken = { sendPhoto: async () => undefined, takeBack: async () => undefined };

const kim = { id: 'kim', name: 'Kim' };

const waitingEntry = (index: number, photoIds: string[] = []): WaitingEntry => {
  const id = `entry-${String(index).padStart(4, '0')}`;
  return {
    id,
    pileId: 'cart-shed',
    entry: { id, at: '2031-06-11T10:00:00Z', note: `note ${index}`, photoIds, what: { kind: 'note' } },
    writtenMs: index,
    refused: null,
    writer: kim,
  };
};

/** A server that knows what it has; `breaks` says for each packet whether the line breaks before or after it is kept. */
function installation(breaks: readonly ('none' | 'before' | 'after')[]) {
  const kept: string[] = [];
  const struck: string[] = [];
  let packet = 0;
  const senders: Senders = {
    sendPhoto: async () => undefined,
    async sendEntries(entries) {
      const breaksNow = breaks[packet++] ?? 'none';
      if (breaksNow === 'before') throw new NoAnswer('the line broke');
      const outcomes = entries.map(({ entry }) => {
        const known = kept.includes(entry.id);
        if (!known) kept.push(entry.id);
        return { id: entry.id, outcome: known ? ('known' as const) : ('kept' as const), detail: null, pointer: null };
      });
      if (breaksNow === 'after') throw new NoAnswer('the answer was lost');
      return { outcomes };
    },
    takeBack: async ({ id }) => void struck.push(id),
  };
  return { senders, kept, struck };
}

test('sendWaiting() keeps each entry once, whichever packets and answers are lost', async () => {
  const line = fc.array(fc.constantFrom('none' as const, 'before' as const, 'after' as const), { maxLength: 12 });
  await fc.assert(
    fc.asyncProperty(line, fc.integer({ min: 0, max: 3 * packetSize }), async (breaks, count) => {
      const { store, kept } = memoryStore(Array.from({ length: count }, (_, index) => waitingEntry(index)));
      const { senders, kept: inInstallation } = installation(breaks);
      for (let tries = 0; tries <= breaks.length && kept.size > 0; tries++) {
        await sendWaiting(store, senders, kim).catch((error: unknown) => expect(error).toBeInstanceOf(NoAnswer));
      }
      expect(kept.size).toBe(0);
      expect(inInstallation).toEqual(Array.from({ length: count }, (_, index) => waitingEntry(index).id));
    }),
    { seed: 14, numRuns: 60 },
  );
});

test('an entry the server refuses stays with the reason, holds up no other, and is not sent again', async () => {
  const { store, kept } = memoryStore([waitingEntry(1), waitingEntry(2), waitingEntry(3)]);
  let packets = 0;
  const senders: Senders = {
    ...nothingTaken,
    async sendEntries(entries) {
      packets += 1;
      return {
        outcomes: entries.map(({ entry }) =>
          entry.id === 'entry-0002'
            ? { id: entry.id, outcome: 'refused' as const, detail: 'No pile "cart-shed"', pointer: '/pileId' }
            : { id: entry.id, outcome: 'kept' as const, detail: null, pointer: null },
        ),
      };
    },
  };
  expect(await sendWaiting(store, senders, kim)).toEqual({ kept: 2, refused: 1 });
  expect([...kept.values()].map(({ id, refused }) => [id, refused])).toEqual([['entry-0002', 'No pile "cart-shed"']]);
  await sendWaiting(store, senders, kim);
  expect(packets).toBe(1);
});

test('an entry the answer does not name waits on', async () => {
  const { store, kept } = memoryStore([waitingEntry(1)]);
  await sendWaiting(store, { ...nothingTaken, sendEntries: async () => ({ outcomes: [] }) }, kim);
  expect(kept.get('entry-0001')?.refused).toBeNull();
});

test('photos go before the entry that names them, and once', async () => {
  const { store, pictures } = memoryStore([waitingEntry(1, ['photo-0001'])], { 'photo-0001': new Blob(['x']) });
  const { senders } = installation(['before']);
  const sent: string[] = [];
  const watched: Senders = { ...senders, sendPhoto: async (id) => void sent.push(id) };
  await expect(sendWaiting(store, watched, kim)).rejects.toThrow('the line broke');
  expect(pictures.size).toBe(0);
  await sendWaiting(store, watched, kim);
  expect(sent).toEqual(['photo-0001']);
});

const problem = (status: number) => new ApiProblem({ type: 'about:blank', title: 'No', status, detail: 'not this' });

test.each([413, 415, 422])('a photo refused with %d marks its entry; the others are sent', async (status) => {
  const { store, kept } = memoryStore([waitingEntry(1, ['photo-0001']), waitingEntry(2)], {
    'photo-0001': new Blob(['x']),
  });
  const { senders, kept: inInstallation } = installation([]);
  await sendWaiting(store, { ...senders, sendPhoto: async () => Promise.reject(problem(status)) }, kim);
  expect(kept.get('entry-0001')).toMatchObject({ refused: expect.stringContaining('not this'), refusedPart: 'photo' });
  expect(inInstallation).toEqual(['entry-0002']);
});

test.each([401, 403, 429, 500, 503])(
  'a server that answers %d is asked again later, and nothing is given up',
  async (status) => {
    const { store, kept } = memoryStore([waitingEntry(1)]);
    const senders: Senders = {
      ...nothingTaken,
      sendEntries: async () => Promise.reject(problem(status)),
    };
    await expect(sendWaiting(store, senders, kim)).rejects.toBeInstanceOf(ApiProblem);
    expect(kept.get('entry-0001')?.refused).toBeNull();
  },
);

const olive = { id: 'olive', name: 'Olive' };
const here = { id: 'here', name: 'This machine' };
const program = { id: 'api-token', name: 'API token' };
const rows: [string, typeof kim | null, typeof kim, boolean][] = [
  // what                                        written by  signed in  sent
  ['one’s own', kim, kim, true],
  ['somebody else’s', kim, olive, false],
  ['a person’s, where nobody goes by name', kim, here, false],
  ['nobody’s, by a person', null, kim, false],
  ['one of before anybody was set up, by a person', here, kim, false],
  ['one of before anybody was set up, still so', here, here, true],
  ['the same, once there is a token', here, program, true],
  ['nobody’s, where nobody goes by name', null, here, true],
];
test.each(rows)('%s: sendWaiting() sends it only under its writer’s name (%#)', async (_what, writer, who, isSent) => {
  const { store, kept } = memoryStore([{ ...waitingEntry(1, ['photo-0001']), writer }], {
    'photo-0001': new Blob(['x']),
  });
  const writers: string[] = [];
  const photos: string[] = [];
  const { senders } = installation([]);
  const sent = await sendWaiting(
    store,
    {
      ...senders,
      sendPhoto: async (id) => void photos.push(id),
      sendEntries(entries, as) {
        writers.push(as);
        return senders.sendEntries(entries, as);
      },
    },
    who,
  );
  expect([sent.kept, kept.size, writers, photos.length]).toEqual(isSent ? [1, 0, [who.id], 1] : [0, 1, [], 0]);
});

const takenBack = (index: number, photoIds: string[] = []): WaitingEntry => ({
  ...waitingEntry(index, photoIds),
  takenBackAs: 'struck-0001',
});

test('an entry that was taken back is not sent any more, and is struck out where it may have arrived', async () => {
  const { store, kept, pictures } = memoryStore([takenBack(1, ['photo-0001']), waitingEntry(2)], {
    'photo-0001': new Blob(['x']),
  });
  const { senders, kept: inInstallation, struck } = installation([]);
  await sendWaiting(store, senders, kim);
  expect([inInstallation, struck]).toEqual([['entry-0002'], ['entry-0001']]);
  expect([kept.size, pictures.size]).toEqual([0, 0]);
});

test('an entry that is taken back while it is on its way is struck out at the next turn', async () => {
  const { store } = memoryStore([waitingEntry(1)]);
  const { senders, struck } = installation([]);
  const slow: Senders = {
    ...senders,
    async sendEntries(entries, as) {
      await store.put(takenBack(1));
      return senders.sendEntries(entries, as);
    },
  };
  await sendWaiting(store, slow, kim);
  expect(struck).toEqual([]);
  await sendWaiting(store, slow, kim);
  expect([struck, await store.entries()]).toEqual([['entry-0001'], []]);
});

test('taking back waits while the server is out of reach, and stays with the reason where it is refused', async () => {
  const { store, kept } = memoryStore([takenBack(1)]);
  const { senders } = installation([]);
  const lost: Senders = { ...senders, takeBack: async () => Promise.reject(new NoAnswer('out of reach')) };
  await expect(sendWaiting(store, lost, kim)).rejects.toBeInstanceOf(NoAnswer);
  expect(kept.get('entry-0001')).toEqual(takenBack(1));
  const refused: Senders = { ...senders, takeBack: async () => Promise.reject(problem(409)) };
  await sendWaiting(store, refused, kim);
  expect(kept.get('entry-0001')?.refused).toContain('not this');
});
