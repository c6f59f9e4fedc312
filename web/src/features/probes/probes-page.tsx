/** Every probe that ever talked: those no pile has yet, and those that sit in one. */
import { useEffect, useState } from 'preact/hooks';
import { useInstallation } from '../../data/live/use-installation.ts';
import { TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { usePage } from '../../ui/parts/use-page.ts';
import { ClaimedProbes } from './claimed-probes.tsx';
import { FirstReading } from './first-reading.tsx';
import { probesSentence } from './probe-facts.ts';
import { UnclaimedProbes } from './unclaimed-probes.tsx';
import './probes.css';

/** From so many on nobody wants to look for one by eye. */
const manyProbes = 20;
/** Typed letters are gathered for so long before the server is asked. */
const gatherMs = 250;

export function ProbesPage() {
  const heading = usePage('Probes');
  const counts = useInstallation((installation) => installation.probeCounts);
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const [typed, setTyped] = useState('');
  const find = useSettled(typed, gatherMs);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {probesSentence(counts, piles)}
        </h1>
        {counts.all === 0 && <p class="lead">The moment one does, it stands here.</p>}
        {counts.isFull && (
          <p class="lead">
            No more new probes are listened to until some of those in no pile are claimed or forgotten.{' '}
            <a href="/incoming">Messages we could not use</a> counts what they send.
          </p>
        )}
        {(counts.all > manyProbes || typed !== '') && (
          <div class="form find-probe">
            <TextField label="Find a probe" value={typed} onValue={setTyped} hint="A part of its name, site or pile." />
          </div>
        )}
      </div>
      <UnclaimedProbes find={find} />
      <ClaimedProbes find={find} />
      <May to="keeper">
        <Part id="add-probe" title="Let another probe talk">
          <FirstReading />
          <p>
            A probe on another machine needs{' '}
            <May to="owner" otherwise="a key of its own: ask an owner for one.">
              <a href="/keys">a key of its own</a>.
            </May>
          </p>
        </Part>
      </May>
    </div>
  );
}

/** A value once it has not changed for a while. */
function useSettled(value: string, forMs: number): string {
  const [settled, setSettled] = useState(value);
  useEffect(() => {
    const timer = setTimeout(() => setSettled(value), forMs);
    return () => clearTimeout(timer);
  }, [value]);
  return settled;
}
