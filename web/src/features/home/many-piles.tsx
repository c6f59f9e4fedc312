/** Many piles: who needs somebody now, who will today, and all others by site; found, chosen and put in order in the address. */
import { useMemo } from 'preact/hooks';
import { useLocation } from 'preact-iso';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { HomeControls } from './home-controls.tsx';
import { groupBySite } from './home-order.ts';
import {
  chosenPiles,
  type HomeView,
  homeAddress,
  type PileState,
  readHomeView,
  stateOf,
  usualView,
} from './home-view.ts';
import { PileLine } from './pile-line.tsx';
import { useMoreSoon } from './use-more-soon.ts';
import './many-piles.css';

export function ManyPiles({ piles }: { readonly piles: readonly PileSummary[] }) {
  const sites = useInstallation((installation) => installation.sites);
  const { text } = usePageTexts(pageHomeTexts);
  const { query, route } = useLocation();
  const view = useMemo(() => readHomeView(query), [query]);
  const siteNames = useMemo(() => new Map(sites.map(({ id, name }) => [id, name])), [sites]);
  const nameOf = (id: string) => siteNames.get(id) ?? id;
  const chosen = useMemo(() => chosenPiles(piles, view, nameOf), [piles, view, siteNames]);
  const drawn = useMoreSoon(view, chosen.length);
  const go = (change: Partial<HomeView>) => route(homeAddress({ ...view, ...change }), true);
  return (
    <div class="many-piles">
      <HomeControls
        view={view}
        sites={sites.filter(({ id }) => piles.some((pile) => pile.site === id))}
        shownCount={chosen.length}
        pileCount={piles.length}
        onView={go}
        onAll={() => route(homeAddress({ ...usualView, order: view.order }), true)}
      />
      {chosen.length === 0 && <p class="lead">{text('page-home.none-like-that')}</p>}
      {view.order === 'need' ? (
        <ByNeed piles={chosen} nameOf={nameOf} drawn={drawn} />
      ) : (
        <ol class="pile-lines">
          {chosen.slice(0, drawn).map((pile) => (
            <PileLine key={pile.id} pile={pile} siteName={nameOf(pile.site)} />
          ))}
        </ol>
      )}
    </div>
  );
}

interface ByNeedProps {
  readonly piles: readonly PileSummary[];
  readonly nameOf: (site: string) => string;
  /** How many lines there is time for now. */
  readonly drawn: number;
}

interface Section {
  readonly id: string;
  readonly title: string;
  readonly piles: readonly PileSummary[];
  /** Where they are of several sites. */
  readonly nameOf?: (site: string) => string;
}

function ByNeed({ piles, nameOf, drawn }: ByNeedProps) {
  const sites = useInstallation((installation) => installation.sites);
  const { text } = usePageTexts(pageHomeTexts);
  const of = (...states: PileState[]) => piles.filter((pile) => states.includes(stateOf(pile)));
  const [need, watch, others] = [of('need'), of('watch'), of('calm', 'empty')];
  const sections: Section[] = [
    { id: 'need', title: text('page-home.need', { pileCount: need.length }), piles: need, nameOf },
    { id: 'watch', title: text('page-home.watch', { pileCount: watch.length }), piles: watch, nameOf },
    ...groupBySite(others, sites).map((site) => ({
      id: `site-${site.id}`,
      title: text('page-home.others', { siteName: site.name, pileCount: site.piles.length }),
      piles: site.piles,
    })),
  ];
  let room = drawn;
  return (
    <>
      {sections.map((section) => {
        const shown = section.piles.slice(0, Math.max(0, room));
        room -= shown.length;
        return shown.length > 0 && <Lines key={section.id} {...section} piles={shown} />;
      })}
    </>
  );
}

function Lines({ id, title, piles, nameOf }: Section) {
  return (
    <section aria-labelledby={`lines-${id}`}>
      <h2 id={`lines-${id}`}>{title}</h2>
      <ol class="pile-lines">
        {piles.map((pile) => (
          <PileLine key={pile.id} pile={pile} siteName={nameOf?.(pile.site)} />
        ))}
      </ol>
    </section>
  );
}
