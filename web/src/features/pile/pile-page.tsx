/** One pile: its sentence, its warnings, its mound, what was done, how it went and goes on. */

import { useRoute } from 'preact-iso';
import type { PileDetail } from '../../../../shared/contracts/piles.ts';
import { positions } from '../../../../shared/names.ts';
import { fetchAll } from '../../data/live/connection.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useSaid } from '../../data/live/use-say.ts';
import { usePrefs } from '../../data/prefs.ts';
import { quantityHint } from '../../ui/format/quantity-words.ts';
import { renderPile } from '../../ui/format/render-pile.ts';
import { Mound } from '../../ui/mound/mound.tsx';
import { dampWords, heatWords, otherReadings } from '../../ui/mound/mound-facts.ts';
import { useMoundWords } from '../../ui/mound/use-mound-words.ts';
import { ToneMark } from '../../ui/parts/marks.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { chapterPath } from '../help/chapters.ts';
import { KeySoon } from '../help/key-soon.tsx';
import { JournalPart } from '../journal/journal-part.tsx';
import { CoreOffer } from '../probes/core-offer.tsx';
import { LastVerdict } from '../verdict/last-verdict.tsx';
import { AirOfSite } from './air-of-site.tsx';
import { FinishBatch, NextBatch } from './batch-end.tsx';
import { BatchRuler } from './batch-ruler.tsx';
import { heardWords } from './heard-words.ts';
import { History } from './history.tsx';
import { HandOffers } from './intervention-offers.tsx';
import { LaidRows } from './laid-rows.tsx';
import { Limits } from './limits.tsx';
import { Moisture } from './moisture.tsx';
import { NameAndRemoval } from './name-and-removal.tsx';
import { NoPile } from './no-pile.tsx';
import { OffsetOffers } from './offset-offers.tsx';
import { Readiness } from './readiness.tsx';
import { ThumbBar } from './thumb-bar.tsx';
import { ToAcknowledge } from './to-acknowledge.tsx';
import { isStageKnown } from './trouble-line.tsx';
import { TroubleNote } from './trouble-note.tsx';
import { usePile } from './use-pile.ts';
import { usePileWords } from './use-pile-words.ts';
import { Warnings } from './warnings.tsx';
import { WhyShort } from './why-short.tsx';
import { writeMeasuredPath } from './write-measured-path.ts';
import './pile-page.css';

export function PilePage() {
  const { params } = useRoute();
  const { pile, error, goneName, refresh } = usePile(params.id ?? '');
  if (pile) return <Pile key={pile.id} pile={pile} refresh={refresh} />;
  return <NoPile error={error} goneName={goneName} />;
}

function Pile({ pile, refresh }: { readonly pile: PileDetail; readonly refresh: () => Promise<void> }) {
  const afterChange = () => Promise.all([refresh(), fetchAll()]);
  return (
    <div class="page pile-page">
      <Opening pile={pile} onChange={afterChange} />
      <May to="keeper">
        {pile.batch === null && pile.trouble?.judged !== false && (
          <>
            <LastVerdict pileId={pile.id} />
            <NextBatch pile={pile} onChange={afterChange} />
          </>
        )}
      </May>
      <May to="keeper">
        {pile.batch !== null && pile.positions.core === undefined && <CoreOffer pile={pile} onChange={afterChange} />}
      </May>
      <div class="pile-now">
        <History pile={pile} />
        <Warnings pile={pile} onChange={afterChange} />
      </div>
      <div class="pile-places">
        <Mound pile={pile} depthM={pile.recipe?.depthM} cover={pile.recipe?.cover} large />
        <div>
          <PositionLines pile={pile} />
          <AirOfSite pile={pile} />
          <BatchRuler pile={pile} />
        </div>
      </div>
      <KeySoon />
      <JournalPart pile={pile} onChange={afterChange}>
        <May to="keeper">
          <HandOffers pile={pile} onChange={afterChange} />
          <OffsetOffers pile={pile} onChange={afterChange} />
        </May>
      </JournalPart>
      <Moisture pile={pile} />
      <Readiness pile={pile} onChange={afterChange} />
      <Recipe pile={pile} />
      <Limits pile={pile} onChange={afterChange} />
      <WhyShort pile={pile} />
      <May to="keeper">
        <div class="no-print">
          {pile.batch && <FinishBatch pile={pile} onChange={afterChange} />}
          <NameAndRemoval pile={pile} onChange={afterChange} />
          {pile.batch && <ThumbBar pileId={pile.id} />}
        </div>
      </May>
    </div>
  );
}

/** How it is, and what to do next. */
function Opening({ pile, onChange }: { readonly pile: PileDetail; readonly onChange: () => Promise<unknown> }) {
  const heading = usePage(pile.name);
  const { text } = usePileWords(pile.site);
  const said = useSaid(renderPile, pile.site);
  const siteName = useInstallation(
    (installation) => installation.sites.find((site) => site.id === pile.site)?.name ?? pile.site,
  );
  return (
    <header class="opening">
      <p class="dateline">
        <a href="/">{siteName}</a>
        {isStageKnown(pile) && (
          <>
            , <a href={chapterPath('stages')}>{text('page-pile.stage', { stage: pile.stage })}</a>
          </>
        )}
      </p>
      <div class="pile-title">
        <h1 ref={heading} tabIndex={-1}>
          {pile.name}
        </h1>
        <ToneMark tone={pile.tone} />
      </div>
      <p class="sentence sentence-large">{said(pile, 'condition')}</p>
      {pile.next && <p class="next next-large">{said(pile, 'next')}</p>}
      <ToAcknowledge alarms={pile.alarms} site={pile.site} onChange={onChange} />
      {pile.batch && (
        <p class="measure-next">
          {pile.measureNext && <>{said(pile.measureNext, 'says')} </>}
          <May to="keeper">
            <a class="button" href={writeMeasuredPath(pile.id, 'core')}>
              {text('page-pile.write-temperature')}
            </a>
          </May>
        </p>
      )}
      <TroubleNote pile={pile} />
    </header>
  );
}

/** What else the probes say, one line per place: damp, gas, age. */
function PositionLines({ pile }: { readonly pile: PileDetail }) {
  const { unit } = usePrefs();
  const words = usePileWords(pile.site);
  const { text } = words;
  const nowMs = useServerNow();
  const entries = positions.flatMap((position) =>
    pile.positions[position] ? [[position, pile.positions[position]] as const] : [],
  );
  const moundWords = useMoundWords();
  const piles = useInstallation((installation) => installation.piles);
  const nameOf = (id: string) => piles?.find((one) => one.id === id)?.name ?? id;
  const dots = dampWords(pile, moundWords);
  if (entries.length === 0) {
    return (
      <p class="quiet">
        {text('page-pile.no-probe')}{' '}
        <May to="keeper">
          <a href="/probes">{text('page-pile.no-probe.claim')}</a>
        </May>
      </p>
    );
  }
  return (
    <>
      <ul class="position-lines">
        {entries.map(([position, now]) => {
          const neighbour = now.ofPile === undefined ? undefined : nameOf(now.ofPile);
          const said = [
            neighbour !== undefined && text('page-pile.air.neighbour', { pileName: neighbour }),
            now.doubted && heatWords(now, unit, moundWords),
            ...otherReadings(now),
            heardWords(now, nowMs, words),
          ].filter(Boolean);
          return (
            <li key={position}>
              {words.rich('page-pile.place', {
                position: position === 'air' ? 'other' : position,
                b: (inner) => <b>{inner}</b>,
              })}{' '}
              {said.join(', ')}
            </li>
          );
        })}
      </ul>
      {dots && <p class="hint">{dots}</p>}
      {entries.some(([, now]) => now.moisturePct !== undefined) && <p class="hint">{quantityHint('moisture')}</p>}
    </>
  );
}

function Recipe({ pile }: { readonly pile: PileDetail }) {
  const { text } = usePileWords();
  const { recipe, assumed } = pile;
  if (!recipe) return null;
  return (
    <Part id="recipe" title={text('page-pile.laid.title')}>
      <dl class="ledger">
        <LaidRows laid={{ recipe, assumed, stage: pile.stage }} />
      </dl>
    </Part>
  );
}
