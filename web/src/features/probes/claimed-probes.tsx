/** The probes that sit in a pile, a page of them, pile by pile. */
import type { ComponentChildren } from 'preact';
import type { Probe } from '../../../../shared/contracts/probes.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { Refusal } from '../../ui/parts/forms.tsx';
import { Pager } from '../../ui/parts/pager.tsx';
import { ClaimedProbe } from './claimed-probe.tsx';
import { isSilent } from './probe-facts.ts';
import { useProbePage } from './use-probe-page.ts';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

const probesOfAPage = 50;

interface Group {
  readonly id: string;
  readonly site: string;
  readonly title: ComponentChildren;
  readonly probes: Probe[];
}

export function ClaimedProbes({ find }: { readonly find: string }) {
  const { text } = useProbeWords();
  const page = useProbePage({ claimed: 'yes', order: 'pile', find }, probesOfAPage);
  const piles = useInstallation((installation) => installation.piles) ?? [];
  const sites = useInstallation((installation) => installation.sites);
  const { value, error, offset, limit } = page;
  if (!value) return error === undefined ? <Looking /> : <Refusal error={error} />;
  if (value.total === 0 && find !== '') return <p class="lead">{text('page-probes.claimed.none-found')}</p>;
  const groups: Group[] = [];
  for (const probe of value.probes) {
    const pile = piles.find(({ id }) => id === probe.claim?.pileId);
    const id = pile?.id ?? 'elsewhere';
    const title = pile ? <a href={`/piles/${id}`}>{pile.name}</a> : text('page-probes.elsewhere');
    const before = groups.find((group) => group.id === id);
    if (before) before.probes.push(probe);
    else groups.push({ id, site: pile?.site ?? '', title, probes: [probe] });
  }
  const siteName = (id: string) => sites.length > 1 && sites.find((site) => site.id === id)?.name;
  return (
    <>
      {groups.map((group) => (
        <section class="probe-pile" aria-labelledby={`probes-${group.id}`} key={group.id}>
          <h2 id={`probes-${group.id}`}>{group.title}</h2>
          <p class="facts">{siteName(group.site)}</p>
          <ul>
            {group.probes.map((probe) => (
              <ClaimedProbe key={`${probe.site}/${probe.probe}`} probe={probe} isSilent={isSilent(probe, piles)} />
            ))}
          </ul>
        </section>
      ))}
      <Pager
        label={text('page-probes.pages.claimed')}
        offset={offset}
        limit={limit}
        total={value.total}
        onTurn={page.turnTo}
      />
    </>
  );
}

/** Nobody shall take a list that is on its way for an empty one. */
function Looking() {
  const { text } = useProbeWords();
  const { all, unclaimed } = useInstallation((installation) => installation.probeCounts);
  return all > unclaimed ? <p class="quiet">{text('page-probes.looking')}</p> : null;
}
