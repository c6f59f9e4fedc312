/** In which language somebody reads; nothing while there is only one. */
import { fallback } from '../../../../shared/messages/language.ts';
import { pageLanguageTexts } from '../../../../shared/messages/made/en/page-language.ts';
import { languages } from '../../../../shared/messages/made/languages.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { me, useMe } from '../../data/me.ts';
import { chooseLanguage } from '../../data/session-api.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { PickField, Refusal } from '../../ui/parts/forms.tsx';
import { MachineMade } from '../../ui/parts/machine-made.tsx';
import { languageName } from './language-name.ts';

const ofBrowser = '';

export function LanguageChoice() {
  const person = useMe();
  const { text } = usePageTexts(pageLanguageTexts);
  const mutation = useMutation();
  if (languages.length < 2 || person?.via !== 'session') return null;
  const choose = (choice: string) =>
    mutation.run(async () => {
      const { language } = await chooseLanguage(choice === ofBrowser ? null : choice);
      const now = me.get();
      if (!now?.person) return;
      const { language: _, ...rest } = now.person;
      me.set({ ...now, person: language === null ? rest : { ...rest, language } });
    });
  return (
    <>
      <PickField
        label={text('page-language.label')}
        value={person.language ?? ofBrowser}
        choices={[
          [ofBrowser, text('page-language.as-browser')],
          ...languages.map((one) => [one, languageName(one)] as const),
        ]}
        onValue={(choice) => void choose(choice)}
        hint={text('page-language.hint', { fallbackName: languageName(fallback) })}
      />
      <MachineMade />
      <Refusal error={mutation.error} />
    </>
  );
}
