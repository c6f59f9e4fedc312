/** An empty start: what to do first, and what is already talking. */
import type { ComponentChildren } from 'preact';
import { pageWelcomeTexts } from '../../../../shared/messages/made/en/page-welcome.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import { usePrefs } from '../../data/prefs.ts';
import { ageWords } from '../../ui/format/age.ts';
import { formatTemp } from '../../ui/format/temperature.ts';
import { EmptyMound } from '../../ui/mound/empty-mound.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { PileForm } from '../pile/pile-form.tsx';
import { FirstReading } from '../probes/first-reading.tsx';
import './welcome.css';

export function Welcome() {
  const mayLay = useMay('keeper');
  return mayLay ? <FirstSteps /> : <NothingYet />;
}

const useWords = () => usePageTexts(pageWelcomeTexts);
const practise = (inner: ComponentChildren) => <a href="/practice">{inner}</a>;

function NothingYet() {
  const { text, rich } = useWords();
  const heading = usePage(text('page-welcome.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-welcome.none')}
      </h1>
      <p class="lead">{text('page-welcome.none.hint')}</p>
      <div class="welcome-mound">
        <EmptyMound />
      </div>
      <p>{rich('page-welcome.practise-meanwhile', { link: practise })}</p>
    </div>
  );
}

function FirstSteps() {
  const { text, rich } = useWords();
  const heading = usePage(text('page-welcome.title'));
  return (
    <div class="page welcome">
      <div class="opening welcome-opening">
        <h1 ref={heading} tabIndex={-1}>
          {text('page-welcome.lay-first')}
        </h1>
        <p class="lead">{text('page-welcome.lead')}</p>
        <div class="welcome-mound">
          <EmptyMound />
        </div>
      </div>
      <ol class="steps">
        <li>
          <h2>{text('page-welcome.step.name')}</h2>
          <PileForm />
        </li>
        <li>
          <h2>{text('page-welcome.step.probe')}</h2>
          <FirstReading />
        </li>
        <li>
          <h2>{text('page-welcome.step.claim')}</h2>
          <Talking />
        </li>
      </ol>
      <aside class="aside">
        <h2 class="aside-title">{text('page-welcome.only-looking')}</h2>
        <p>{rich('page-welcome.practise', { link: practise })}</p>
        <p>{rich('page-welcome.demo', { command: (inner) => <code>{inner}</code> })}</p>
      </aside>
    </div>
  );
}

/** Of the probes that talk, so that the first steps stay in sight. */
const mostShown = 10;

function Talking() {
  const { text, rich } = useWords();
  const probes = useInstallation((installation) => installation.probes);
  const { all } = useInstallation((installation) => installation.probeCounts);
  const nowMs = useServerNow();
  const { unit } = usePrefs();
  if (probes.length === 0) {
    return <p class="quiet">{text('page-welcome.no-probe')}</p>;
  }
  return (
    <>
      <ul class="talking">
        {probes.slice(0, mostShown).map(({ site, probe, device, last: { temperatureC }, lastAt }) => (
          <li key={`${site}/${probe}`}>
            {rich('page-welcome.talks', {
              probeText: device?.label ?? `${site}/${probe}`,
              name: (inner) => <b>{inner}</b>,
              isHot: temperatureC !== undefined,
              tempText: temperatureC === undefined ? '' : formatTemp(temperatureC, unit),
              isHeard: lastAt != null,
              ageText: lastAt == null ? '' : ageWords(nowMs - Date.parse(lastAt)),
            })}
          </li>
        ))}
      </ul>
      {all > mostShown && <p class="quiet">{text('page-welcome.more', { moreCount: all - mostShown })}</p>}
      <p>{rich('page-welcome.then', { link: (inner) => <a href="/probes">{inner}</a> })}</p>
    </>
  );
}
