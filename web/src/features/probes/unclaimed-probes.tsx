/** The probes that no pile has, a page of them, by name: an order that stays while they speak. */
import { Refusal } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { Pager } from '../../ui/parts/pager.tsx';
import { Part } from '../../ui/parts/part.tsx';
import { ForgetMany } from './forget-probe.tsx';
import { UnclaimedProbe } from './unclaimed-probe.tsx';
import { useProbePage } from './use-probe-page.ts';
import './probes.css';
import { useProbeWords } from './use-probe-words.ts';

const probesOfAPage = 20;
/** Of few probes each shows its form at once. */
const fewProbes = 3;

export function UnclaimedProbes({ find }: { readonly find: string }) {
  const { text } = useProbeWords();
  const page = useProbePage({ claimed: 'no', find }, probesOfAPage);
  const { value, error, offset, limit } = page;
  if (!value) return error === undefined ? null : <Refusal error={error} />;
  if (value.total === 0 && (find === '' || value.counts.unclaimed === 0)) return null;
  return (
    <Part id="unclaimed" title={text('page-probes.unclaimed')}>
      {value.total === 0 && <p class="quiet">{text('page-probes.unclaimed.none-found')}</p>}
      <ul class="probe-list">
        {value.probes.map((probe) => (
          <UnclaimedProbe key={`${probe.site}/${probe.probe}`} probe={probe} isOneOfFew={value.total <= fewProbes} />
        ))}
      </ul>
      <Pager
        label={text('page-probes.pages.unclaimed')}
        offset={offset}
        limit={limit}
        total={value.total}
        onTurn={page.turnTo}
      />
      {value.total > fewProbes && (
        <May to="owner">
          <div class="forget-many">
            <ForgetMany key={find} find={find} total={value.total} />
          </div>
        </May>
      )}
    </Part>
  );
}
