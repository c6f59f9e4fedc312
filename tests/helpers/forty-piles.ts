import type { MockFarm } from './mock-farm.ts';

const perSite = 20;

/** The calm barn bed many times over, every fifth one too hot. */
export function fortyPiles(farm: MockFarm): void {
  const like = farm.piles.find(({ id }) => id === 'barn-bed');
  if (!like) throw new Error('No pile barn-bed');
  const sites = farm.sites.slice(0, 2);
  farm.piles = sites.flatMap((site, s) =>
    Array.from({ length: perSite }, (_, i) => ({
      ...like,
      id: `bed-${s}-${i}`,
      name: `Bed ${s * perSite + i + 1}`,
      site: site.id,
      alarms: [],
      tone: i % 5 === 0 ? ('act' as const) : ('calm' as const),
    })),
  );
}
