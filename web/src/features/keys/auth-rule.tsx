/** Whether a probe needs a key also when it comes from this machine. */
import type { KeysAnswer } from '../../../../shared/contracts/keys.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { Choice, Refusal } from '../../ui/parts/forms.tsx';
import { setAuthRule } from './keys-api.ts';
import { useKeyWords } from './use-key-words.ts';

interface AuthRuleProps {
  readonly answer: KeysAnswer;
  readonly onChange: () => Promise<void>;
}

export function AuthRule({ answer, onChange }: AuthRuleProps) {
  const { text } = useKeyWords();
  const mutation = useMutation();
  const { everyProbeNeedsAKey, networkIsTrusted } = answer;
  return (
    <>
      <Choice
        legend={text('page-keys.rule')}
        hideLegend
        value={everyProbeNeedsAKey ? 'every' : 'others'}
        choices={[
          ['others', text('page-keys.rule.others', { isTrusted: networkIsTrusted })],
          ['every', text('page-keys.rule.every')],
        ]}
        onValue={(who) => void mutation.run(() => setAuthRule(who === 'every').then(onChange))}
      />
      <p class="hint">{text('page-keys.rule.hint', { isTrusted: networkIsTrusted })}</p>
      <Refusal error={mutation.error} />
    </>
  );
}
