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
import { useProbeWords } from './use-probe-words.ts';

/** From so many on nobody wants to look for one by eye. */
const manyProbes = 20;
/** Typed letters are gathered for so long before the server is asked. */
const gatherMs = 250;

export function ProbesPage() {
  const words = useProbeWords();
  const { text, rich } = words;
  const heading = usePage(text('page-probes.title'));
  const counts = useInstallation((installation) => installation.probeCounts);
  const known = useInstallation((installation) => installation.piles);
  const isLost = useInstallation((installation) => installation.link === 'lost');
  const piles = known ?? [];
  const [typed, setTyped] = useState('');
  const find = useSettled(typed, gatherMs);
  return (
    <div class="page">
      <div class="opening">
        <h1 ref={heading} tabIndex={-1}>
          {known === null
            ? text(isLost ? 'page-probes.none-shown' : 'page-probes.looking')
            : probesSentence(counts, piles, words)}
        </h1>
        {known !== null && counts.all === 0 && <p class="lead">{text('page-probes.all.none.hint')}</p>}
        {counts.isFull && (
          <p class="lead">{rich('page-probes.full', { link: (inner) => <a href="/incoming">{inner}</a> })}</p>
        )}
        {(counts.all > manyProbes || typed !== '') && (
          <div class="form find-probe">
            <TextField
              label={text('page-probes.find')}
              value={typed}
              onValue={setTyped}
              hint={text('page-probes.find.hint')}
            />
          </div>
        )}
      </div>
      <UnclaimedProbes find={find} />
      <ClaimedProbes find={find} />
      <May to="keeper">
        <Part id="add-probe" title={text('page-probes.another')}>
          <FirstReading />
          <p>
            <May to="owner" otherwise={text('page-probes.another.key.ask')}>
              {rich('page-probes.another.key', { link: (inner) => <a href="/keys">{inner}</a> })}
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
