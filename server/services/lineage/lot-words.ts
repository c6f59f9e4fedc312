import { type Message, message } from '../../../shared/messages/message.ts';
import { materialProfiles } from '../../../shared/profiles/materials.ts';
import type { LotRecord } from '../../../shared/store/journal.ts';

export type MaterialLot = Extract<LotRecord['facts'], { kind: 'material' }>;

/** What a lot of material is, within a sentence. */
export function lotMaterial(material: MaterialLot['material']): Message {
  if (material === 'water' || material === 'sugar') return message(`lineage.${material}`);
  return materialProfiles[material].name;
}

/** As the texts choose by it, whose keys hold no hyphen. */
export const organicChoice = {
  certified: 'certified',
  'in-conversion': 'conversion',
  'not-certified': 'not',
  unknown: 'other',
} as const satisfies Record<MaterialLot['organic'], string>;
