/** What every readings store must do, whichever database is behind it. */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { StoreError } from '../../../shared/errors.ts';
import type { Reading } from '../../../shared/reading.ts';
import {
  appended,
  type BucketColumns,
  type ProbeName,
  type ReadingsStore,
  type SeriesRef,
} from '../../../shared/store/readings-store.ts';
import { arbitraryBatches, arbitraryTime, beginMs, bounded, dayMs, site, someSeries } from './arbitrary-readings.ts';
import { isOf, type ModelBucket, ReadingsModel } from './readings-model.ts';

export interface OpenedReadings {
  readonly store: ReadingsStore;
  /** Closes it and opens the same readings again; absent where closing forgets them. */
  readonly reopen?: () => Promise<ReadingsStore>;
}

const minuteMs = 60_000;
const core: SeriesRef = { site, probe: 'bran-core', quantity: 'temperature' };
const top: SeriesRef = { site, probe: 'bran-top', quantity: 'temperature' };

const at = (ref: SeriesRef, minute: number, value: number): Reading => ({
  ...ref,
  atMs: beginMs + minute * minuteMs,
  value,
});

export interface ContractBounds {
  /** The latest time the store can hold [epoch ms]. */
  readonly latestMs?: number;
  /** Whether it knows how much room it takes; else it says 0. */
  readonly tellsBytes?: boolean;
  /** Whether it can thin; else it says why it cannot. */
  readonly downsamples?: boolean;
}

export function readingsStoreContract(
  name: string,
  open: () => Promise<OpenedReadings>,
  { latestMs = 8_640_000_000_000_000, tellsBytes = true, downsamples = true }: ContractBounds = {},
): void {
  const withStore = async (run: (store: ReadingsStore) => Promise<void>): Promise<void> => {
    const { store } = await open();
    try {
      await run(store);
    } finally {
      await store.close();
    }
  };

  describe(name, () => {
    describe('append()', () => {
      test('tells new, duplicate and conflict apart within a batch and between batches', () =>
        withStore(async (store) => {
          const first = await store.append([at(core, 0, 20), at(core, 0, 20), at(core, 0, 21), at(core, 1, 22)]);
          expect([...first.outcomes]).toEqual([appended.new, appended.duplicate, appended.conflict, appended.new]);
          expect(first).toMatchObject({ newCount: 2, duplicateCount: 1, conflictCount: 1 });
          const second = await store.append([at(core, 0, 20), at(core, 1, 9), at(core, -5, 19), at(top, 0, 20)]);
          expect([...second.outcomes]).toEqual([appended.duplicate, appended.conflict, appended.new, appended.new]);
          // a conflict keeps the value stored first
          expect(await store.rows([core], 0, beginMs + dayMs, 10)).toEqual([
            at(core, -5, 19),
            at(core, 0, 20),
            at(core, 1, 22),
          ]);
        }));

      test('takes an empty batch and one of 10,000', () =>
        withStore(async (store) => {
          expect((await store.append([])).newCount).toBe(0);
          const many = Array.from({ length: 10_000 }, (_, minute) => at(core, minute, minute % 64));
          expect((await store.append(many)).newCount).toBe(10_000);
          expect((await store.append(many)).duplicateCount).toBe(10_000);
          expect((await store.size()).rows).toBe(10_000);
        }));

      const unusable: [string, Partial<Reading>][] = [
        ['a value that is not a number', { value: Number.NaN }],
        ['an endless value', { value: Number.POSITIVE_INFINITY }],
        ['a time between milliseconds', { atMs: 0.5 }],
        ['a time before 1970', { atMs: -1 }],
        ['no time', { atMs: Number.NaN }],
      ];
      for (const [what, wrong] of unusable) {
        test(`refuses ${what} and keeps nothing of its batch`, () =>
          withStore(async (store) => {
            await store.append([at(core, 0, 20)]);
            const batch = [at(core, 1, 21), at(top, 1, 21), { ...at(core, 2, 22), ...wrong }];
            await expect(store.append(batch)).rejects.toThrow(RangeError);
            expect(await store.rows([core, top], 0, beginMs + dayMs, 10)).toEqual([at(core, 0, 20)]);
            expect(await store.lasts()).toHaveLength(1);
            // and what was refused with it can come again
            expect((await store.append([at(core, 1, 21), at(top, 1, 21)])).newCount).toBe(2);
          }));
      }

      test('takes negative zero for zero', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, -0)]);
          expect((await store.append([at(core, 0, 0)])).duplicateCount).toBe(1);
          expect((await store.lasts())[0]?.value).toBe(0);
        }));

      test('keeps every finite value as it came, but for the sign of zero', () =>
        withStore(async (store) => {
          await fc.assert(
            fc.asyncProperty(
              fc.double({ noNaN: true, noDefaultInfinity: true }),
              fc.integer({ min: 0, max: latestMs }),
              fc.uuid(),
              async (value, atMs, probe) => {
                const ref = { site, probe, quantity: 'co2' as const };
                await store.append([{ ...ref, atMs, value }]);
                expect(await store.rows([ref], atMs, atMs + 1, 1)).toEqual([{ ...ref, atMs, value: value + 0 }]);
              },
            ),
            { seed: 20310330, numRuns: 50 },
          );
        }));
    });

    test('lasts() gives all series, or those of the sites that are named', () =>
      withStore(async (store) => {
        const elsewhere: SeriesRef = { ...core, site: 'saltmere-terrace' };
        await store.append([at(core, 0, 1), at(core, 1, 2), at(elsewhere, 3, 4)]);
        const [own, others] = [
          { ...at(core, 1, 2), firstAtMs: beginMs },
          { ...at(elsewhere, 3, 4), firstAtMs: beginMs + 3 * minuteMs },
        ];
        expect(await store.lasts([site])).toEqual([own]);
        expect(await store.lasts([elsewhere.site])).toEqual([others]);
        expect(await store.lasts([])).toEqual([]);
        expect(await store.lasts()).toHaveLength(2);
      }));

    describe('rows()', () => {
      test('merges series by time and knows nothing of a series never seen', () =>
        withStore(async (store) => {
          await store.append([at(top, 1, 31), at(core, 0, 20), at(core, 2, 22), at(top, 2, 32)]);
          const unseen = { site, probe: 'never', quantity: 'temperature' as const };
          expect(await store.rows([core, unseen, top], beginMs, beginMs + 3 * minuteMs, 10)).toEqual([
            at(core, 0, 20),
            at(top, 1, 31),
            at(core, 2, 22),
            at(top, 2, 32),
          ]);
          expect(await store.rows([unseen], 0, beginMs + dayMs, 10)).toEqual([]);
        }));

      test('gives a page of 25,000 whole', () =>
        withStore(async (store) => {
          const many = Array.from({ length: 30_000 }, (_, minute) => at(core, minute, minute % 64));
          await store.append(many);
          expect(await store.rows([core], 0, beginMs + 40 * dayMs, 25_000)).toEqual(many.slice(0, 25_000));
        }));

      test('counts the start of a range in and its end out', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, 20), at(core, 1, 21), at(core, 2, 22)]);
          const found = await store.rows([core], beginMs, beginMs + 2 * minuteMs, 10);
          expect(found).toEqual([at(core, 0, 20), at(core, 1, 21)]);
        }));

      test('ends a page before a time that does not fit whole', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, 1), at(core, 1, 2), at(top, 1, 3), at(core, 2, 4)]);
          const end = beginMs + dayMs;
          expect(await store.rows([core, top], 0, end, 2)).toEqual([at(core, 0, 1)]);
          expect(await store.rows([core, top], 0, end, 3)).toEqual([at(core, 0, 1), at(core, 1, 2), at(top, 1, 3)]);
        }));

      test('gives a time whole that alone has more readings than the limit', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, 1), at(top, 0, 2), at(core, 1, 3)]);
          expect(await store.rows([core, top], 0, beginMs + dayMs, 1)).toEqual([at(core, 0, 1), at(top, 0, 2)]);
        }));

      test('refuses a limit below 1 and ends of a range that are no numbers', () =>
        withStore(async (store) => {
          await expect(store.rows([core], 0, 1, 0)).rejects.toThrow(RangeError);
          await expect(store.rows([core], Number.NaN, 1, 1)).rejects.toThrow(RangeError);
        }));
    });

    describe('buckets()', () => {
      test('leaves empty buckets out and answers in the order asked', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, 20), at(core, 1, 24), at(core, 30, 40)]);
          const { bucketMs, columns } = await store.buckets([top, core], beginMs, beginMs + 60 * minuteMs, 12);
          expect(bucketMs).toBe(5 * minuteMs);
          expect(columns.map(toBuckets)).toEqual([
            [],
            [
              { startMs: beginMs, min: 20, mean: 22, max: 24, count: 2 },
              { startMs: beginMs + 30 * minuteMs, min: 40, mean: 40, max: 40, count: 1 },
            ],
          ]);
        }));

      test('counts only what lies in the range, in a bucket cut by its edge too', () =>
        withStore(async (store) => {
          await store.append(Array.from({ length: 24 * 60 }, (_, minute) => at(core, minute, minute)));
          // 30 min to 21 h 30 min in three hours each: the first and the last bucket are cut
          const { bucketMs, columns } = await store.buckets(
            [core],
            beginMs + 30 * minuteMs,
            beginMs + 1290 * minuteMs,
            8,
          );
          expect(bucketMs).toBe(180 * minuteMs);
          const found = columns.flatMap(toBuckets);
          expect(found).toHaveLength(8);
          expect(found[0]).toMatchObject({ startMs: beginMs, min: 30, max: 179, count: 150 });
          expect(found[7]).toMatchObject({ startMs: beginMs + 1260 * minuteMs, min: 1260, max: 1289, count: 30 });
        }));

      test('counts of a part of a series only what lies in the part', () =>
        withStore(async (store) => {
          await store.append(Array.from({ length: 24 * 60 }, (_, minute) => at(core, minute, minute)));
          const partly = { ...core, fromMs: beginMs + 90 * minuteMs, toMs: beginMs + 725 * minuteMs };
          const parts = [
            partly,
            { ...core, fromMs: partly.toMs, toMs: null },
            { ...core, fromMs: beginMs + 2 * dayMs },
          ];
          const { bucketMs, columns } = await store.buckets(parts, beginMs, beginMs + dayMs, 8);
          expect(bucketMs).toBe(180 * minuteMs);
          const [before, after, never] = columns.map(toBuckets);
          expect(before?.map(({ count }) => count)).toEqual([90, 180, 180, 180, 5]);
          expect(before?.at(-1)).toEqual({
            startMs: beginMs + 720 * minuteMs,
            min: 720,
            mean: 722,
            max: 724,
            count: 5,
          });
          expect(after?.map(({ count }) => count)).toEqual([175, 180, 180, 180]);
          expect(never).toEqual([]);
        }));

      test('draws nothing from an empty range', () =>
        withStore(async (store) => {
          await store.append([at(core, 0, 20)]);
          for (const [fromMs, toMs] of [
            [beginMs, beginMs],
            [beginMs + 1, beginMs],
          ] as const) {
            const { columns } = await store.buckets([core], fromMs, toMs, 10);
            expect(columns.map(toBuckets)).toEqual([[]]);
          }
        }));

      test('refuses less than one point', () =>
        withStore(async (store) => {
          await expect(store.buckets([core], 0, 1, 0)).rejects.toThrow(RangeError);
        }));
    });

    test.skipIf(downsamples)('forget() says why it cannot, and takes nothing away', () =>
      withStore(async (store) => {
        await store.append([at(core, 0, 20)]);
        await expect(store.forget([core])).rejects.toThrow(/InfluxDB 3 takes no rows away/);
        expect((await store.size()).rows).toBe(1);
      }),
    );

    describe.skipIf(!downsamples)('forget()', () => {
      const hours = (ref: SeriesRef, count: number) =>
        Array.from({ length: count * 60 }, (_, minute) => at(ref, minute, minute % 64));
      const endMs = beginMs + dayMs;

      test('leaves nothing of a probe in any answer, rollups and stand-ins included, and all of the others', () =>
        withStore(async (store) => {
          const humid: SeriesRef = { ...core, quantity: 'humidity' };
          const elsewhere: SeriesRef = { ...core, site: 'saltmere-terrace' };
          await store.append([core, humid, top, elsewhere].flatMap((ref) => hours(ref, 12)));
          await downsampleWhole(store, beginMs + 6 * 3_600_000);
          await store.append([at(core, 800, 30), at(top, 800, 30)]);
          const others = () => Promise.all([store.rows([top, elsewhere], 0, endMs, 10_000), store.rawFrom([top])]);
          const before = await others();
          await forgetWhole(store, [core]);
          expect((await store.lasts()).map(({ site: of, probe }) => `${of}/${probe}`).sort()).toEqual(
            [top, elsewhere].map(({ site: of, probe }) => `${of}/${probe}`).sort(),
          );
          expect(await store.rows([core, humid], 0, endMs, 10_000)).toEqual([]);
          const { columns } = await store.buckets([core, humid], beginMs, endMs, 24);
          expect(columns.map(toBuckets)).toEqual([[], []]);
          expect(await others()).toEqual(before);
          expect((await store.size()).rows).toBe(before[0].filter(({ standsFor }) => standsFor === undefined).length);
        }));

      test('one that speaks again begins anew, also before what it once said', () =>
        withStore(async (store) => {
          await store.append(hours(core, 12));
          await downsampleWhole(store, beginMs + 6 * 3_600_000);
          await forgetWhole(store, [core]);
          expect([...(await store.append([at(core, 5, 77), at(core, 700, 78)])).outcomes]).toEqual([1, 1]);
          expect((await store.rows([core], 0, endMs, 100)).map(({ value }) => value)).toEqual([77, 78]);
          expect(await store.rawFrom([core])).toBe(0);
        }));

      test('a probe that nobody heard of is forgotten without a word', () =>
        withStore(async (store) => {
          await store.append([at(top, 0, 20)]);
          await forgetWhole(store, [core]);
          expect((await store.size()).rows).toBe(1);
        }));

      test('is still forgotten after the store was opened again', async () => {
        const { store, reopen } = await open();
        await store.append([...hours(core, 2), ...hours(top, 2)]);
        await forgetWhole(store, [core]);
        await store.append([at(top, 200, 1)]);
        const again = reopen ? await reopen() : store;
        expect((await again.lasts()).map(({ probe }) => probe)).toEqual(['bran-top']);
        await again.close();
      });
    });

    test.skipIf(downsamples)('downsample() says why it cannot, and takes nothing away', () =>
      withStore(async (store) => {
        await store.append([at(core, 0, 20)]);
        await expect(store.downsample(beginMs + dayMs)).rejects.toThrow(StoreError);
        expect((await store.size()).rows).toBe(1);
        expect([await store.watermark(), await store.rawFrom([core])]).toEqual([0, 0]);
      }),
    );

    describe.skipIf(!downsamples)('downsample()', () => {
      const hours = (count: number) => Array.from({ length: count * 60 }, (_, minute) => at(core, minute, minute % 64));
      const inHours = (count: number) => beginMs + count * 60 * minuteMs;

      test('takes the rows before a whole three hours away and leaves ten-minute means at their middle', () =>
        withStore(async (store) => {
          await store.append(hours(12));
          expect(await store.watermark()).toBe(0);
          expect((await store.weigh(0, inHours(7))).rows).toBe(360); // six whole hours of the seven
          expect(await downsampleWhole(store, inHours(7))).toBe(360);
          expect(await store.watermark()).toBe(inHours(6));
          expect(await store.rawFrom([core, top])).toBe(inHours(6));
          expect((await store.size()).rows).toBe(360);
          expect((await store.weigh(0, inHours(7))).rows).toBe(0);
          const rows = await store.rows([core], 0, inHours(12), 1_000);
          expect(rows).toHaveLength(36 + 360);
          expect(rows[0]).toEqual({ ...at(core, 5, 4.5), standsFor: { count: 10, min: 0, max: 9 } });
          expect(rows[36]).toEqual(at(core, 360, 360 % 64));
        }));

      test('leaves charts of whole ten minutes and coarser as they were', () =>
        withStore(async (store) => {
          await store.append(hours(48));
          const ask = (points: number) => store.buckets([core], beginMs, inHours(48), points);
          const before = await Promise.all([288, 100, 48, 16, 3].map(ask));
          await downsampleWhole(store, inHours(40));
          expect(await Promise.all([288, 100, 48, 16, 3].map(ask))).toEqual(before);
        }));

      test('gives a stretch whole to the one of two ranges in which its middle lies', () =>
        withStore(async (store) => {
          await store.append(hours(6));
          await downsampleWhole(store, inHours(3));
          const count = async (fromMs: number, toMs: number) => {
            const { columns } = await store.buckets([core], fromMs, toMs, 1_000);
            return columns.flatMap(toBuckets).reduce((sum, bucket) => sum + bucket.count, 0);
          };
          const cutMs = beginMs + 65 * minuteMs;
          expect(await count(beginMs, cutMs)).toBe(60);
          expect(await count(cutMs, inHours(6))).toBe(300);
          expect(await count(beginMs, cutMs + 1)).toBe(70);
        }));

      test('refuses what lies before the watermark, known or not, and counts nothing of it', () =>
        withStore(async (store) => {
          await store.append(hours(6));
          await downsampleWhole(store, inHours(3));
          const late = [at(core, 179, 3), at(core, 179, 51), { ...at(core, 30, 9), atMs: beginMs + 1 }];
          const result = await store.append([...late, at(core, 180, 180 % 64), at(core, 400, 1)]);
          const { beforeWatermark, duplicate } = appended;
          expect([...result.outcomes]).toEqual([
            beforeWatermark,
            beforeWatermark,
            beforeWatermark,
            duplicate,
            appended.new,
          ]);
          expect(result).toMatchObject({ beforeWatermarkCount: 3, newCount: 1, duplicateCount: 1, conflictCount: 0 });
          const { columns } = await store.buckets([core], beginMs, inHours(3), 1);
          expect(columns.flatMap(toBuckets)[0]?.count).toBe(180);
        }));

      test('never goes back', () =>
        withStore(async (store) => {
          await store.append(hours(12));
          await downsampleWhole(store, inHours(6));
          expect(await downsampleWhole(store, inHours(3))).toBe(0);
          expect(await store.watermark()).toBe(inHours(6));
          expect(await store.rawFrom([core])).toBe(inHours(6));
        }));

      test('lets a probe that was away bring what it kept, and an earlier season come in until the next downsampling', () =>
        withStore(async (store) => {
          await store.append(hours(6));
          await downsampleWhole(store, inHours(100));
          expect(await store.rawFrom([core])).toBe(inHours(6)); // its newest is at 5:59
          expect((await store.append([at(core, 361, 20), at(top, 3, 20)])).newCount).toBe(2);
          expect((await store.append([at(top, 3, 20)])).duplicateCount).toBe(1);
          await downsampleWhole(store, inHours(100));
          expect((await store.append([at(core, 361, 20), at(top, 3, 20)])).beforeWatermarkCount).toBe(2);
          expect((await store.size()).rows).toBe(0);
        }));

      test('keeps its watermark when opened again', async () => {
        const opened = await open();
        if (opened.reopen === undefined) return opened.store.close();
        await opened.store.append(hours(6));
        await downsampleWhole(opened.store, inHours(3));
        const store = await opened.reopen();
        expect(await store.watermark()).toBe(inHours(3));
        expect((await store.append([at(core, 0, 0)])).beforeWatermarkCount).toBe(1);
        expect((await store.size()).rows).toBe(180);
        await store.close();
      });
    });

    test('lasts() gives each series its first time and its newest value, however late the others came', () =>
      withStore(async (store) => {
        expect(await store.lasts()).toEqual([]);
        await store.append([at(core, 5, 25), at(core, 3, 23), at(top, 4, 34)]);
        await store.append([at(core, 1, 21)]);
        const lasts = await store.lasts();
        expect(lasts).toHaveLength(2);
        expect(lasts).toContainEqual({ ...at(core, 5, 25), firstAtMs: beginMs + minuteMs });
        expect(lasts).toContainEqual({ ...at(top, 4, 34), firstAtMs: beginMs + 4 * minuteMs });
      }));

    test('size() counts each reading once', () =>
      withStore(async (store) => {
        await store.append([at(core, 0, 20), at(core, 0, 20), at(core, 1, 21)]);
        const { rows, bytes } = await store.size();
        expect(rows).toBe(2);
        if (tellsBytes) expect(bytes).toBeGreaterThan(0);
        else expect(bytes).toBe(0);
      }));

    test('a closed store refuses with a StoreError, and closing twice is no harm', async () => {
      const { store } = await open();
      await store.check();
      await store.close();
      await store.close();
      await expect(store.append([at(core, 0, 20)])).rejects.toThrow(StoreError);
      await expect(store.check()).rejects.toThrow(StoreError);
      await expect(store.lasts()).rejects.toThrow(StoreError);
    });

    test('answers as if every reading were kept in one plain list, for any batches in any order, downsampled or not', async () => {
      await fc.assert(
        fc.asyncProperty(
          arbitraryBatches,
          arbitraryDownsamplings,
          arbitraryQuestion,
          async (batches, downsample, question) => {
            const forgetAfter = downsamples ? question.forgetAfter : Number.NaN;
            const opened = await open();
            let { store } = opened;
            try {
              const model = new ReadingsModel();
              for (const [index, batch] of batches.entries()) {
                const { outcomes } = await store.append(batch);
                expect([...outcomes]).toEqual(model.append(batch));
                const beforeMs = downsamples ? (downsample[index] ?? null) : null;
                if (beforeMs !== null) {
                  await downsampleWhole(store, beforeMs);
                  model.downsample(beforeMs);
                }
                if (index === forgetAfter) {
                  await forgetWhole(store, [core]);
                  model.forget([core]);
                }
                if (index === question.reopenAfter && opened.reopen) store = await opened.reopen();
              }
              await expectSameAnswers(store, model, question);
            } finally {
              await store.close();
            }
          },
        ),
        { seed: 20310331, numRuns: 60, ...bounded },
      );
    });
  });
}

/** After some batches, the time before which readings are downsampled. */
const arbitraryDownsamplings: fc.Arbitrary<(number | null)[]> = fc.array(
  fc.option(arbitraryTime, { freq: 2, nil: null }),
  {
    minLength: 8,
    maxLength: 8,
  },
);

/** All steps of a downsampling. */
export async function downsampleWhole(store: ReadingsStore, beforeMs: number): Promise<number> {
  for (let removed = 0; ; ) {
    const step = await store.downsample(beforeMs);
    removed += step.removed;
    if (step.done) return removed;
  }
}

/** All steps of forgetting. */
async function forgetWhole(store: ReadingsStore, probes: readonly ProbeName[]): Promise<void> {
  for (let step = await store.forget(probes); !step.done; ) step = await store.forget([]);
}

export interface Question {
  fromMs: number;
  toMs: number;
  points: number;
  limit: number;
  reopenAfter: number;
  /** After this batch one probe is forgotten. */
  forgetAfter: number;
}

export const arbitraryQuestion: fc.Arbitrary<Question> = fc
  .record({
    ends: fc.tuple(arbitraryTime, arbitraryTime),
    points: fc.oneof(fc.integer({ min: 1, max: 40 }), fc.integer({ min: 40, max: 5_000 })),
    limit: fc.integer({ min: 1, max: 60 }),
    reopenAfter: fc.nat(8),
    forgetAfter: fc.nat(16),
  })
  .map(({ ends: [a, b], ...rest }) => ({ fromMs: Math.min(a, b), toMs: Math.max(a, b) + 1, ...rest }));

export async function expectSameAnswers(store: ReadingsStore, model: ReadingsModel, question: Question): Promise<void> {
  const { fromMs, toMs, points, limit } = question;
  expect((await store.size()).rows).toBe(model.count);
  expect((await store.weigh(fromMs, toMs)).rows).toBe(model.rawCount(fromMs, toMs));
  expect(await store.rawFrom(someSeries)).toBe(model.rawFrom(someSeries));
  const lasts = await store.lasts();
  expect(lasts).toHaveLength(model.lasts().length);
  for (const last of model.lasts()) expect(lasts.find((found) => isOf(found, last))).toEqual(last);

  const { bucketMs, columns } = await store.buckets(someSeries, fromMs, toMs, points);
  expect(Math.floor((toMs - 1) / bucketMs) - Math.floor(fromMs / bucketMs) + 1).toBeLessThanOrEqual(points);
  expect(columns.map(toBuckets)).toEqual(someSeries.map((ref) => model.buckets(ref, fromMs, toMs, bucketMs)));

  expect(await pages(store, fromMs, toMs, limit)).toEqual(model.rows(someSeries, fromMs, toMs));
}

/** All rows, page by page, as a replay reads them. */
async function pages(store: ReadingsStore, fromMs: number, toMs: number, limit: number): Promise<Reading[]> {
  const all: Reading[] = [];
  for (;;) {
    const nextMs = (all.at(-1)?.atMs ?? fromMs - 1) + 1;
    const page = await store.rows(someSeries, nextMs, toMs, limit);
    if (page.length === 0) return all;
    expect(page.length <= limit || page.every((reading) => reading.atMs === page[0]?.atMs)).toBe(true);
    all.push(...page);
  }
}

export function toBuckets({ startMs, min, mean, max, count }: BucketColumns): ModelBucket[] {
  return Array.from(startMs, (start, index) => ({
    startMs: start,
    min: min[index] as number,
    mean: mean[index] as number,
    max: max[index] as number,
    count: count[index] as number,
  }));
}
