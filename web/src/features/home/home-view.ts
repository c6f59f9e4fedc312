/** Which of many piles are shown and in what order, as it stands in the address: a link shows the same, and so does going back. */
import { z } from 'zod';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { positions, stages } from '../../../../shared/names.ts';
import { addressWith, unusual } from '../../data/address-query.ts';
import { byName, byPress } from './home-order.ts';

export const pileStates = ['need', 'watch', 'calm', 'empty'] as const;
export type PileState = (typeof pileStates)[number];
export const pileOrders = ['need', 'heat', 'age', 'name'] as const;

const viewSchema = z.object({
  /** A part of the name of a pile or of its site. */
  find: z.string().max(80).catch(''),
  site: z.string().max(80).catch(''),
  stage: z.enum(stages).or(z.literal('')).catch(''),
  state: z.enum(pileStates).or(z.literal('')).catch(''),
  order: z.enum(pileOrders).catch('need'),
});
export type HomeView = z.output<typeof viewSchema>;

export const usualView: HomeView = viewSchema.parse({});

export function readHomeView(query: Record<string, string>): HomeView {
  return viewSchema.parse(query);
}

export function homeAddress(view: HomeView): string {
  return addressWith('/', unusual(view, usualView));
}

/** What a pile asks of people; where nothing lies, nothing is asked. */
export function stateOf({ batch, tone }: Pick<PileSummary, 'batch' | 'tone'>): PileState {
  if (tone === 'danger' || tone === 'act') return 'need';
  if (tone === 'watch' || tone === 'unknown') return 'watch';
  return batch === null ? 'empty' : 'calm';
}

/** The hottest that is known of a place within it [°C]; -Infinity where nothing is. */
export function hottestC({ positions: at }: Pick<PileSummary, 'positions'>): number {
  return Math.max(
    ...positions
      .filter((position) => position !== 'air' && at[position]?.silent === false)
      .map((position) => at[position]?.temperatureC ?? Number.NEGATIVE_INFINITY),
    Number.NEGATIVE_INFINITY,
  );
}

const laidMs = ({ batch }: PileSummary) => (batch ? Date.parse(batch.startedAt) : Number.POSITIVE_INFINITY);

const orders: Record<HomeView['order'], (one: PileSummary, other: PileSummary) => number> = {
  need: byPress,
  heat: (one, other) => compare(hottestC(other), hottestC(one)) || byName(one, other),
  age: (one, other) => compare(laidMs(one), laidMs(other)) || byName(one, other),
  name: byName,
};

/** Also of two that are both without end. */
const compare = (one: number, other: number) => (one === other ? 0 : one - other);

/** @param siteName Of a site by its id. */
export function chosenPiles(
  piles: readonly PileSummary[],
  view: HomeView,
  siteName: (id: string) => string,
): readonly PileSummary[] {
  const wanted = view.find.trim().toLocaleLowerCase('en');
  return piles
    .filter(
      (pile) =>
        (view.site === '' || pile.site === view.site) &&
        (view.stage === '' || pile.stage === view.stage) &&
        (view.state === '' || stateOf(pile) === view.state) &&
        `${pile.name} ${siteName(pile.site)}`.toLocaleLowerCase('en').includes(wanted),
    )
    .sort(orders[view.order]);
}
