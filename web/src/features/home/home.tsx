/** Every pile with its sentence, the most pressing first; or a welcome when there is none. */
import type { ComponentChildren } from 'preact';
import type { PileSummary } from '../../../../shared/contracts/piles.ts';
import { pageHomeTexts } from '../../../../shared/messages/made/en/page-home.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation, useReader, useServerNow } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import { clockTime, longDay } from '../../ui/format/local-time.ts';
import { loadSoon } from '../../ui/load-soon.ts';
import { MoundKey } from '../../ui/mound/mound-key.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { groupBySite, openingOf } from './home-order.ts';
import { openingSentence } from './opening-sentence.ts';
import { PileEntry } from './pile-entry.tsx';
import { WelcomeSoon } from './welcome-soon.tsx';
import './home.css';

/** From so many on, a card for each is a wall. */
const many = 7;

export function HomePage() {
  const piles = useInstallation((installation) => installation.piles);
  if (piles === null) return <Waiting />;
  return piles.length === 0 ? <WelcomeSoon meanwhile={<Waiting />} /> : <Piles piles={piles} />;
}

function Waiting() {
  const heading = usePage('');
  const { text } = usePageTexts(pageHomeTexts);
  const isLost = useInstallation((installation) => installation.link === 'lost');
  return (
    <div class="page">
      <h1 ref={heading} tabIndex={-1}>
        {isLost ? text('page-home.no-answer') : text('page-home.looking')}
      </h1>
      {isLost && <p class="lead">{text('page-home.no-answer.hint')}</p>}
    </div>
  );
}

function Piles({ piles }: { readonly piles: readonly PileSummary[] }) {
  const words = usePageTexts(pageHomeTexts);
  const { text } = words;
  const heading = usePage(text('page-home.title'));
  const isLost = useInstallation((installation) => installation.link === 'lost');
  const nowMs = useServerNow();
  const reader = useReader();
  return (
    <div class="page">
      <div class="opening">
        <p class="dateline">
          {longDay(nowMs, reader)}, {clockTime(nowMs, reader)}
        </p>
        <h1 ref={heading} tabIndex={-1}>
          {openingSentence(openingOf(piles), words, isLost)}
        </h1>
        <UnclaimedLine />
      </div>
      {piles.length < many ? <FewPiles piles={piles} /> : <ManyPilesSoon piles={piles} />}
      <div class="below-entries">
        <MoundKey />
        <May to="keeper">
          <p class="make-more">
            <a class="button" href="/piles/new">
              {text('page-home.lay-another')}
            </a>
          </p>
        </May>
      </div>
    </div>
  );
}

function FewPiles({ piles }: { readonly piles: readonly PileSummary[] }) {
  const sites = useInstallation((installation) => installation.sites);
  const { text } = usePageTexts(pageHomeTexts);
  return (
    <>
      {groupBySite(piles, sites).map((site) => (
        <section class="site" key={site.id} aria-labelledby={`site-${site.id}`}>
          <div class="site-name">
            <h2 id={`site-${site.id}`}>{site.name}</h2>
            <p>{text('page-home.piles', { pileCount: site.piles.length })}</p>
          </div>
          <ol class="entries">
            {site.piles.map((pile) => (
              <PileEntry key={pile.id} pile={pile} />
            ))}
          </ol>
        </section>
      ))}
    </>
  );
}

const useManyPiles = loadSoon(() => import('./many-piles.tsx'));

/** What many piles need is in a file of its own, so that a phone at a few piles is spared it. */
function ManyPilesSoon({ piles }: { readonly piles: readonly PileSummary[] }) {
  const { loaded } = useManyPiles();
  return loaded ? <loaded.ManyPiles piles={piles} /> : null;
}

function UnclaimedLine() {
  const { unclaimed } = useInstallation((installation) => installation.probeCounts);
  const { rich } = usePageTexts(pageHomeTexts);
  const mayClaim = useMay('keeper');
  if (unclaimed === 0) return null;
  const link = (inner: ComponentChildren) => <a href="/probes">{inner}</a>;
  return <p class="lead">{rich('page-home.unclaimed', { probeCount: unclaimed, mayClaim, link })}</p>;
}
