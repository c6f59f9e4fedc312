/**
 * Enters the farm at the server as its grower would: sites, piles, claims, acts. A mistake that the grower did not notice,
 * such as a fan left on, is not entered.
 */
import { type FastClockSetting, fastClock } from '../../shared/clock.ts';
import { msPerHour } from '../../shared/units.ts';
import { shelterOf } from '../model/shelter.ts';
import type { DemoFarm, DemoPile } from '../scenarios/demo/demo-farm.ts';

export interface SettleOptions {
  readonly farm: DemoFarm;
  readonly pagesUrl: string;
  readonly farmStartMs: number;
  readonly clock: FastClockSetting;
  readonly signal: AbortSignal;
}

/** What people write down of the hands’ acts. */
const written = { turn: 'turned', water: 'watered', spread: 'spread', heap: 'heaped' } as const;

export async function settleFarm(options: SettleOptions): Promise<void> {
  const { farm } = options;
  const { post, idsAt } = teller(options.pagesUrl);
  const sites = await idsAt('sites');
  for (const { id, name } of farm.sites) if (!sites.has(id)) await post('/api/sites', { id, name });
  const piles = await idsAt('piles');
  for (const pile of farm.piles) {
    const laidMs = options.farmStartMs + pile.laidAfterH * msPerHour;
    const { id, name, site, stage } = pile;
    const batch = { stage, startedAt: laidMs, recipe: recipeOf(farm, pile) };
    // Where batches of past years lay before, the next one is laid on the same pile.
    if (piles.has(id)) await post(`/api/piles/${id}/batches`, batch);
    else await post('/api/piles', { id, name, site, ...batch });
    for (const { name: probe, position } of pile.probes) {
      await post(`/api/probes/${site}/${probe}/claim`, { pileId: id, position, from: laidMs });
    }
    for (const act of actsOf(farm, pile)) {
      const kind = written[act.kind as keyof typeof written];
      if (kind)
        writeDown(options, laidMs + act.afterH * msPerHour, (at) => post(`/api/piles/${id}/acts`, { kind, at }));
    }
  }
}

/** At once when it is past, else when the clock comes to it. */
function writeDown({ clock, signal }: SettleOptions, atMs: number, write: (atMs: number) => Promise<void>): void {
  const waitMs = Math.max(0, (atMs - fastClock(clock).nowMs()) / clock.speed);
  const timer = setTimeout(() => {
    write(atMs).catch((error: unknown) => console.error(`not written down: ${error}`));
  }, waitMs);
  signal.addEventListener('abort', () => clearTimeout(timer));
}

function scenarioPile(farm: DemoFarm, pile: DemoPile) {
  return farm.scenario.sites.find(({ name }) => name === pile.site)?.piles.find(({ name }) => name === pile.name);
}

function actsOf(farm: DemoFarm, pile: DemoPile) {
  return scenarioPile(farm, pile)?.acts ?? [];
}

function recipeOf(farm: DemoFarm, pile: DemoPile) {
  const recipe = scenarioPile(farm, pile)?.recipe;
  const material = recipe?.ingredients[0]?.material;
  if (!recipe) return undefined;
  return {
    material: material === 'wheat-bran' || material === 'rice-bran' ? material : 'other',
    depthM: recipe.depthM,
    moistureFrac: recipe.moistureFrac,
    doseFrac: recipe.doseFrac,
    cover: recipe.cover,
    shelter: shelterOf[recipe.shed],
  };
}

function teller(pagesUrl: string) {
  const token = process.env.BRANHEARTH_API_TOKEN;
  const headers = { 'content-type': 'application/json', ...(token && { authorization: `Bearer ${token}` }) };
  const tell = async (method: 'GET' | 'POST', path: string, body?: object): Promise<Response> => {
    const answer = await fetch(`${pagesUrl}${path}`, { method, headers, ...(body && { body: JSON.stringify(body) }) });
    if (!answer.ok) throw new Error(`${method} ${path}: ${answer.status} ${await answer.text()}`);
    return answer;
  };
  return {
    async post(path: string, body: object): Promise<void> {
      await tell('POST', path, body);
    },
    async idsAt(what: 'sites' | 'piles'): Promise<ReadonlySet<string>> {
      const answer = (await (await tell('GET', `/api/${what}`)).json()) as Record<string, { id: string }[]>;
      return new Set(answer[what]?.map(({ id }) => id));
    },
  };
}
