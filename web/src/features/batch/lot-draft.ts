/** A lot while it is being written down, and what the server is sent of it. */
import { type Lot, type NewLot, newLotSchema } from '../../../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { toInstant } from '../../../../shared/contracts/time.ts';
import { fieldWords } from '../../data/field-words.ts';
import { readMeasure, typed } from '../../data/plan-units.ts';
import { readNumber } from '../../data/read-number.ts';
import { instantOfWall, wallOfInstant } from '../../ui/format/local-time.ts';
import type { BatchWords } from './use-batch-words.ts';

export interface LotDraft {
  readonly kind: 'starter' | 'material';
  readonly name: string;
  readonly storage: string;
  readonly mass: string;
  readonly volume: string;
  readonly note: string;
  readonly collectedPlace: string;
  readonly collectedAt: string;
  readonly medium: string;
  readonly sugar: string;
  readonly sugarRatio: string;
  readonly material: string;
  readonly supplier: string;
  readonly lotNumber: string;
  readonly organic: string;
  readonly certificate: string;
  readonly receivedAt: string;
}

export const emptyLot: LotDraft = {
  kind: 'starter',
  name: '',
  storage: '',
  mass: '',
  volume: '',
  note: '',
  collectedPlace: '',
  collectedAt: '',
  medium: '',
  sugar: '',
  sugarRatio: '',
  material: '',
  supplier: '',
  lotNumber: '',
  organic: 'unknown',
  certificate: '',
  receivedAt: '',
};

const said = (facts: Record<string, unknown>) =>
  Object.fromEntries(Object.entries(facts).filter(([, value]) => value !== undefined && value !== ''));

/** @param timeZone Of the wall clock its days are written by. */
export function lotBody(draft: LotDraft, units: PlanUnits, timeZone: string | undefined): NewLot {
  const instant = (text: string) => {
    const atMs = instantOfWall(text, timeZone);
    return atMs === undefined ? undefined : toInstant(atMs);
  };
  const facts =
    draft.kind === 'starter'
      ? said({
          kind: 'starter',
          collectedPlace: draft.collectedPlace.trim(),
          collectedAt: instant(draft.collectedAt),
          medium: draft.medium.trim(),
          sugar: draft.sugar.trim(),
          sugarRatio: readNumber(draft.sugarRatio),
        })
      : said({
          kind: 'material',
          material: draft.material,
          supplier: draft.supplier.trim(),
          lotNumber: draft.lotNumber.trim(),
          organic: draft.organic,
          certificate: draft.certificate.trim(),
          receivedAt: instant(draft.receivedAt),
        });
  return {
    name: draft.name.trim(),
    ...said({
      storage: draft.storage.trim(),
      massKg: readMeasure('massKg', draft.mass, units),
      volumeL: readMeasure('volumeL', draft.volume, units),
      note: draft.note.trim(),
    }),
    facts,
  } as NewLot;
}

const wanted: ReadonlyMap<string, WantedCode> = new Map([
  ['/name', 'page-batch.lot.name.wanted'],
  ['/massKg', 'page-batch.lot.above-nought'],
  ['/volumeL', 'page-batch.lot.above-nought'],
  ['/facts/sugarRatio', 'page-batch.lot.above-nought'],
  ['/facts/material', 'page-batch.lot.material-name.wanted'],
] as const);
type WantedCode = 'page-batch.lot.name.wanted' | 'page-batch.lot.above-nought' | 'page-batch.lot.material-name.wanted';

/** What is wrong with it before the server is asked, by JSON Pointer. */
export function lotErrors(body: NewLot, { text }: Pick<BatchWords, 'text'>): ReadonlyMap<string, string> {
  const checked = newLotSchema.safeParse(body);
  return new Map(
    checked.success
      ? []
      : checked.error.issues.map((issue) => {
          const pointer = `/${issue.path.join('/')}`;
          const code = wanted.get(pointer);
          return [pointer, code === undefined ? fieldWords(issue) : text(code)] as const;
        }),
  );
}

export function draftOfLot(lot: Lot, units: PlanUnits, timeZone: string | undefined): LotDraft {
  const wall = (instant: string | number | undefined) =>
    instant === undefined ? '' : wallOfInstant(typeof instant === 'number' ? instant : Date.parse(instant), timeZone);
  const { facts } = lot;
  const common = {
    ...emptyLot,
    name: lot.name,
    storage: lot.storage ?? '',
    mass: typed('massKg', lot.massKg ?? undefined, units),
    volume: typed('volumeL', lot.volumeL ?? undefined, units),
    note: lot.note ?? '',
  };
  if (facts.kind === 'starter') {
    return {
      ...common,
      kind: 'starter',
      collectedPlace: facts.collectedPlace ?? '',
      collectedAt: wall(facts.collectedAt),
      medium: facts.medium ?? '',
      sugar: facts.sugar ?? '',
      sugarRatio: facts.sugarRatio === undefined ? '' : String(facts.sugarRatio),
    };
  }
  return {
    ...common,
    kind: 'material',
    material: facts.material,
    supplier: facts.supplier ?? '',
    lotNumber: facts.lotNumber ?? '',
    organic: facts.organic,
    certificate: facts.certificate ?? '',
    receivedAt: wall(facts.receivedAt),
  };
}
