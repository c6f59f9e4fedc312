/** A starter or a material in a sentence, and what its facts are called where they are chosen. */
import type { Lot, organicStatuses } from '../../../../shared/contracts/lots.ts';
import type { Say } from '../../../../shared/messages/message.ts';
import { materials } from '../../../../shared/profiles/material-names.ts';
import { materialProfiles } from '../../../../shared/profiles/materials.ts';
import { useSay } from '../../data/live/use-say.ts';
import { renderLaid } from '../../ui/format/render-laid.ts';
import { capital } from '../../ui/format/words.ts';
import { factsLine } from './batch-words.ts';
import { type BatchWords, useBatchWords } from './use-batch-words.ts';

type Facts<Kind extends Lot['facts']['kind']> = Extract<Lot['facts'], { kind: Kind }>;
type LotMaterial = Facts<'material'>['material'];

/** Besides what piles are made of. */
const more = ['water', 'soil', 'compost', 'sugar'] as const;

/** What is none of them comes last. */
export const lotMaterials: readonly LotMaterial[] = [...materials.filter((one) => one !== 'other'), ...more, 'other'];

/** As texts have it: the name of a choice there has no hyphen. */
export const organicKeys = {
  certified: 'certified',
  'in-conversion': 'conversion',
  'not-certified': 'not',
  unknown: 'other',
} as const satisfies Record<(typeof organicStatuses)[number], string>;

export interface LotWords extends BatchWords {
  readonly material: (material: LotMaterial) => string;
}

export function useLotWords(): LotWords {
  const words = useBatchWords();
  return lotWords(words, useSay(renderLaid));
}

export function lotWords(words: BatchWords, say: Say): LotWords {
  const isMore = (material: LotMaterial): material is (typeof more)[number] => more.some((one) => one === material);
  return {
    ...words,
    material: (material) =>
      isMore(material) ? words.text('page-batch.lot.material', { material }) : say(materialProfiles[material].name),
  };
}

/** @param amount How much there was of it, where that is said in the same breath. */
export function lotSentence({ facts, storage, usedUp }: Lot, words: LotWords, amount?: string): string {
  const { text } = words;
  const said = facts.kind === 'starter' ? starterFacts(facts, words) : materialFacts(facts, words);
  const kept = storage ? text('page-batch.lot.kept', { storageText: storage }) : undefined;
  // An amount stays on one line.
  const factsText = factsLine([amount?.replaceAll(' ', '\u00a0'), ...said, kept], words);
  return capital(
    text('page-batch.lot.says', { factsText: factsText || text('page-batch.lot.starter'), isUsedUp: usedUp }),
  );
}

function starterFacts(facts: Facts<'starter'>, { text }: LotWords): (string | undefined)[] {
  const { collectedPlace, collectedAt, medium, sugar, sugarRatio } = facts;
  return [
    collectedPlace && text('page-batch.lot.collected', { placeName: collectedPlace }),
    collectedAt === undefined ? undefined : text('page-batch.lot.day', { collectedDayMs: msOf(collectedAt) }),
    medium && text('page-batch.lot.medium', { mediumName: medium }),
    sugar &&
      text('page-batch.lot.sugar', {
        sugarName: sugar,
        hasRatio: sugarRatio !== undefined,
        sugarRatio: { value: sugarRatio ?? 1, figures: 2 },
      }),
  ];
}

function materialFacts(facts: Facts<'material'>, { text, material }: LotWords): (string | undefined)[] {
  const { supplier, lotNumber, organic, receivedAt } = facts;
  return [
    material(facts.material),
    supplier && text('page-batch.lot.from', { supplierName: supplier }),
    lotNumber && text('page-batch.lot.number', { numberName: lotNumber }),
    organic === 'unknown' ? undefined : text('page-batch.lot.organic', { organic: organicKeys[organic] }),
    receivedAt === undefined ? undefined : text('page-batch.lot.received', { receivedDayMs: msOf(receivedAt) }),
  ];
}

const msOf = (instant: string | number) => (typeof instant === 'number' ? instant : Date.parse(instant));
