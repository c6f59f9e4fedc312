/** In which language this device is read while nobody signs in on it; whoever does chooses under Settings, for all their devices. */
import { pageLanguageTexts } from '../../../../shared/messages/made/en/page-language.ts';
import { languages } from '../../../../shared/messages/made/languages.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { me, useMe } from '../../data/me.ts';
import { changePrefs, usePrefs } from '../../data/prefs.ts';
import { useStore } from '../../data/store.ts';
import { PickField } from '../../ui/parts/forms.tsx';
import { MachineMade } from '../../ui/parts/machine-made.tsx';
import { languageName } from './language-name.ts';

const ofBrowser = '';

export function DeviceLanguage() {
  const isKnown = useStore(me, (known) => known !== null);
  const person = useMe();
  const { language } = usePrefs();
  const { text } = usePageTexts(pageLanguageTexts);
  if (!isKnown || person?.via === 'session' || languages.length < 2) return null;
  return (
    <div>
      <PickField
        label={text('page-language.label')}
        value={language}
        choices={[
          [ofBrowser, text('page-language.as-browser')],
          ...languages.map((one) => [one, languageName(one)] as const),
        ]}
        onValue={(choice) => changePrefs({ language: choice })}
      />
      <MachineMade />
    </div>
  );
}
