/** How the ends, ways and uses of batches and the facts of lots are said. */

import {
  type BatchView,
  endingNames,
  type FlowView,
  type FlowWay,
  type useTargets,
} from '../../../../shared/contracts/lineage.ts';
import type { Lot, organicStatuses } from '../../../../shared/contracts/lots.ts';
import type { PlanUnits } from '../../../../shared/contracts/plan.ts';
import { figure, measureText } from '../../../../shared/measure.ts';
import { materialNames } from '../../../../shared/profiles/material-names.ts';
import { capital, stageNames } from '../../ui/format/words.ts';

export const wayNames: Record<FlowWay, string> = {
  input: 'mixed in',
  continued: 'taken on',
  split: 'parted',
  merged: 'put together',
  used: 'used',
  kept: 'kept as a lot',
};

export const targetNames: Record<(typeof useTargets)[number], string> = {
  bed: 'a bed',
  compost: 'a compost heap',
  potting: 'potting mix',
  store: 'the store',
  'given-away': 'given away',
  other: 'something else',
};

export const organicNames: Record<(typeof organicStatuses)[number], string> = {
  certified: 'certified organic',
  'in-conversion': 'in conversion to organic',
  'not-certified': 'not certified organic',
  unknown: 'nobody asked',
};

const otherMaterials = { water: 'water', soil: 'soil', compost: 'compost', sugar: 'sugar' } as const;
export type LotMaterial = Extract<Lot['facts'], { kind: 'material' }>['material'];
export const lotMaterialNames: Record<LotMaterial, string> = { ...materialNames, ...otherMaterials };

/** The amount of a flow or lot; undefined where nobody wrote it down. */
export function amountWords(
  { massKg, volumeL }: Pick<FlowView, 'massKg' | 'volumeL'>,
  units: PlanUnits,
): string | undefined {
  const parts = [
    massKg === null ? undefined : measureText('massKg', massKg, units, 3),
    volumeL === null ? undefined : measureText('volumeL', volumeL, units, 3),
  ].filter((part) => part !== undefined);
  return parts.length === 0 ? undefined : parts.join(', ');
}

/** @example "Bran stage, laid 3 Apr 2031 on Cart shed." */
export function batchSentence(batch: BatchView, day: (instant: string) => string): string {
  const laid = `${capital(stageNames[batch.stage])}, laid ${day(batch.startedAt)} on ${batch.pileName}`;
  if (batch.endedAt === null) return `${laid}. It is still working.`;
  const ending = batch.ending === null ? 'ended' : endingNames[batch.ending];
  return `${laid}; ${ending} ${day(batch.endedAt)}.`;
}

/** @param amount How much there was of it, where that is said in the same breath. */
export function lotSentence(
  { facts, storage, usedUp }: Lot,
  day: (instant: string | number) => string,
  amount?: string,
): string {
  const parts =
    facts.kind === 'starter'
      ? [
          facts.collectedPlace && `collected in ${facts.collectedPlace}`,
          facts.collectedAt && day(facts.collectedAt),
          facts.medium && `on ${facts.medium}`,
          facts.sugar &&
            `with ${facts.sugar}${facts.sugarRatio === undefined ? '' : ` ${figure(facts.sugarRatio, 2)}:1`}`,
          storage && `kept: ${storage}`,
        ]
      : [
          lotMaterialNames[facts.material],
          facts.supplier && `from ${facts.supplier}`,
          facts.lotNumber && `lot ${facts.lotNumber}`,
          facts.organic !== 'unknown' && organicNames[facts.organic],
          facts.receivedAt && `received ${day(facts.receivedAt)}`,
          storage && `kept: ${storage}`,
        ];
  const said = [amount?.replaceAll(' ', '\u00a0'), ...parts].filter(Boolean).join(', ');
  return `${capital(said === '' ? (facts.kind === 'starter' ? 'starter' : 'material') : said)}${usedUp ? '; used up' : ''}.`;
}
