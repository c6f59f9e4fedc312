/** The starters and the bran of the invented years. */
import type { Journal, LotRecord } from '../../../shared/store/journal.ts';
import type { PastBatch } from './past-plan.ts';

const starterPlaces = {
  'saltmere-yard': 'hazel hedge behind the barn',
  'saltmere-terrace': 'oak wood above the upper terrace',
} as const;

export const starterId = (site: PastBatch['site'], year: number) => `starter-${site.slice(9)}-${year}`;
export const branId = (year: number) => `bran-${year}`;

export async function layLots(journal: Journal, plan: readonly PastBatch[]): Promise<void> {
  const lots: LotRecord[] = [];
  for (const year of new Set(plan.map((batch) => batch.year))) {
    const createdAtMs = Date.UTC(year, 2, 20, 9);
    const common = { createdAtMs, note: null, usedUp: true, volumeL: null };
    for (const site of ['saltmere-yard', 'saltmere-terrace'] as const) {
      const place = starterPlaces[site];
      lots.push({
        ...common,
        id: starterId(site, year),
        name: `${site === 'saltmere-yard' ? 'Hazel' : 'Oak'} starter ${year}`,
        storage: 'stone jar in the cellar',
        massKg: 4,
        facts: {
          kind: 'starter',
          collectedPlace: place,
          collectedAt: createdAtMs - 9 * 86_400_000,
          medium: 'cooked rice',
          sugar: 'brown sugar',
          sugarRatio: 1,
        },
      });
    }
    lots.push({
      ...common,
      id: branId(year),
      name: `Bran ${year}`,
      storage: 'sacks in the loft',
      massKg: 900,
      facts: { kind: 'material', material: 'wheat-bran', supplier: 'the mill at Saltmere', organic: 'unknown' },
    });
  }
  await journal.lineage.keep({ lots }, () => undefined);
}
