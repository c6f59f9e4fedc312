/** An empty start: what to do first, and what is already talking. */
import { useState } from 'preact/hooks';
import { useInstallation, useServerNow } from '../../data/live/use-installation.ts';
import { useMay } from '../../data/me.ts';
import { usePrefs } from '../../data/prefs.ts';
import { ageWords } from '../../ui/format/age.ts';
import { formatTemp } from '../../ui/format/temperature.ts';
import { EmptyMound } from '../../ui/mound/empty-mound.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { PileForm } from '../pile/pile-form.tsx';
import { isOnlyHere, publishLine } from './first-reading.ts';
import './welcome.css';

export function Welcome() {
  const mayLay = useMay('keeper');
  return mayLay ? <FirstSteps /> : <NothingYet />;
}

function NothingYet() {
  const heading = usePage('Welcome');
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        No pile is watched yet.
      </h1>
      <p class="lead">A keeper or an owner lays the first; it then stands here.</p>
      <div class="welcome-mound">
        <EmptyMound />
      </div>
      <p>
        <a href="/practice">Practise on a simulated pile</a> meanwhile.
      </p>
    </div>
  );
}

function FirstSteps() {
  const heading = usePage('Welcome');
  return (
    <div class="page welcome">
      <div class="opening welcome-opening">
        <h1 ref={heading} tabIndex={-1}>
          No pile is watched yet. Lay the first.
        </h1>
        <p class="lead">
          Branhearth listens to the probes in your bran and soil piles, says in plain words how each pile is and what to
          do next, and keeps the record of each batch.
        </p>
        <div class="welcome-mound">
          <EmptyMound />
        </div>
      </div>
      <ol class="steps">
        <li>
          <h2>Name the place and the pile</h2>
          <PileForm />
        </li>
        <li>
          <h2>Let a probe talk</h2>
          <FirstReading />
        </li>
        <li>
          <h2>Claim it for the pile</h2>
          <Talking />
        </li>
      </ol>
      <aside class="aside">
        <h2 class="aside-title">Only looking?</h2>
        <p>
          <a href="/practice">Practise on a simulated pile</a>, here and now: it takes a few minutes and no probe.
        </p>
        <p>
          Stop the program, run <code>npm run demo</code> in its folder, and this page shows an invented farm with four
          piles, in fast time and on a scratch folder.
        </p>
      </aside>
    </div>
  );
}

export function FirstReading() {
  const health = useInstallation((installation) => installation.health);
  const site = useInstallation((installation) => installation.sites[0]?.id ?? 'my-yard');
  const [copied, setCopied] = useState(false);
  if (!health) return null;
  const line = publishLine(health.broker.url, health.broker.root, site, 'probe-1', location.hostname);
  const copy = async () => {
    try {
      await navigator.clipboard.writeText(line);
      setCopied(true);
    } catch {
      // No clipboard on plain HTTP from another machine: the line can be selected by hand.
      setCopied(false);
    }
  };
  return (
    <>
      <p>
        A probe publishes over MQTT to <code>{`${health.broker.root}/<site>/<probe>/reading`}</code>. To try it without
        one, run this {isOnlyHere(line) ? 'on this machine, if it' : 'on any machine that'} has Mosquitto’s tools:
      </p>
      <div class="copy-line">
        <pre>{line}</pre>
        <button type="button" onClick={copy}>
          {copied ? 'Copied' : 'Copy'}
        </button>
      </div>
      {health.parts.broker.state !== 'ok' && (
        <p class="wrong">
          The broker is {health.parts.broker.state}: {health.parts.broker.detail}
        </p>
      )}
    </>
  );
}

/** Of the probes that talk, so that the first steps stay in sight. */
const mostShown = 10;

function Talking() {
  const probes = useInstallation((installation) => installation.probes);
  const { all } = useInstallation((installation) => installation.probeCounts);
  const nowMs = useServerNow();
  const { unit } = usePrefs();
  if (probes.length === 0) {
    return <p class="quiet">No probe has talked yet. The moment one does, it stands here.</p>;
  }
  return (
    <>
      <ul class="talking">
        {probes.slice(0, mostShown).map((probe) => (
          <li key={`${probe.site}/${probe.probe}`}>
            <b>
              {probe.site}/{probe.probe}
            </b>
            {probe.last.temperatureC !== undefined && ` says ${formatTemp(probe.last.temperatureC, unit)}`}
            {probe.lastAt && `, ${ageWords(nowMs - Date.parse(probe.lastAt))}`}
          </li>
        ))}
      </ul>
      {all > mostShown && <p class="quiet">And {all - mostShown} more.</p>}
      <p>
        Make the pile first; then <a href="/probes">say where each probe sits</a>.
      </p>
    </>
  );
}
