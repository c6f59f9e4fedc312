/** For which sites the weather service is asked for the air to come. */
import { Fragment } from 'preact';
import { useState } from 'preact/hooks';
import { type WeatherAnswer, weatherAnswerSchema } from '../../../../shared/contracts/weather.ts';
import { formatQuantity } from '../../../../shared/messages/format.ts';
import { pageWeatherTexts } from '../../../../shared/messages/made/en/page-weather.ts';
import { ask, reasonOf } from '../../data/client.ts';
import { usePageTexts } from '../../data/live/page-texts.ts';
import { useInstallation } from '../../data/live/use-installation.ts';
import { useMutation } from '../../data/use-mutation.ts';
import { useQueryEvery } from '../../data/use-query.ts';
import { Refusal, TextField } from '../../ui/parts/forms.tsx';
import { May } from '../../ui/parts/only-for.tsx';
import { usePage } from '../../ui/parts/use-page.ts';

/** An answer may take some seconds to come. */
const lookEveryMs = 5_000;

const getWeather = () => ask(weatherAnswerSchema, '/api/weather');
const useWords = () => usePageTexts(pageWeatherTexts, formatQuantity);

export function WeatherPage() {
  const { text, rich } = useWords();
  const heading = usePage(text('page-weather.title'));
  return (
    <div class="page narrow">
      <h1 ref={heading} tabIndex={-1}>
        {text('page-weather.title')}
      </h1>
      <p class="lead">{text('page-weather.lead')}</p>
      <p class="quiet">{rich('page-weather.own', { mono: (inner) => <code>{inner}</code> })}</p>
      <May to="owner">
        <Weather />
      </May>
    </div>
  );
}

function Weather() {
  const { rich } = useWords();
  const { value, error, refresh } = useQueryEvery('weather', getWeather, lookEveryMs);
  if (!value) return error === undefined ? null : <p class="refusal">{reasonOf(error)}</p>;
  return (
    <>
      <p>
        {rich('page-weather.what', {
          sourceText: value.source,
          terms: (inner) => <a href={value.termsUrl}>{inner}</a>,
          licence: (inner) => <a href={value.licenceUrl}>{inner}</a>,
        })}
      </p>
      <Standing weather={value} />
      <PlacesForm weather={value} onSaved={refresh} />
    </>
  );
}

function Standing({ weather }: { readonly weather: WeatherAnswer }) {
  const { text } = useWords();
  const sites = useInstallation((installation) => installation.sites);
  return (
    <div role="status">
      {weather.places.map(({ site, heardAt, problem }) => {
        const siteName = sites.find(({ id }) => id === site)?.name ?? site;
        if (problem !== null)
          return (
            <p class="refusal" key={site}>
              {text('page-weather.problem', { siteName, problemText: problem })}
            </p>
          );
        if (heardAt === null) return <p key={site}>{text('page-weather.waiting', { siteName })}</p>;
        return <p key={site}>{text('page-weather.heard', { siteName, heardAtMs: Date.parse(heardAt) })}</p>;
      })}
    </div>
  );
}

interface Degrees {
  readonly latitude: string;
  readonly longitude: string;
}

interface PlacesFormProps {
  readonly weather: WeatherAnswer;
  readonly onSaved: () => Promise<void>;
}

/** Places and contact as they are typed, and saving them. */
function usePlaces({ weather, onSaved }: PlacesFormProps) {
  const { text } = useWords();
  const sites = useInstallation((installation) => installation.sites);
  const mutation = useMutation();
  const [contact, setContact] = useState(weather.contact ?? '');
  const [typed, setTyped] = useState<Readonly<Record<string, Degrees>>>({});
  const [isSaved, setSaved] = useState(false);
  const [tried, setTried] = useState(false);
  const degreesOf = (site: string): Degrees => {
    const place = weather.places.find((one) => one.site === site);
    return typed[site] ?? { latitude: String(place?.latitude ?? ''), longitude: String(place?.longitude ?? '') };
  };
  const type = (site: string, change: Partial<Degrees>) => {
    setSaved(false);
    setTyped({ ...typed, [site]: { ...degreesOf(site), ...change } });
  };
  const places = sites
    .map(({ id }) => ({ site: id, ...degreesOf(id) }))
    .filter(({ latitude, longitude }) => latitude.trim() !== '' || longitude.trim() !== '')
    .map(({ site, latitude, longitude }) => ({ site, latitude: numberOf(latitude), longitude: numberOf(longitude) }));
  const wrong = (value: string, other: string) =>
    tried && (value.trim() === '' ? other.trim() !== '' : Number.isNaN(numberOf(value)))
      ? text('page-weather.not-a-number')
      : undefined;
  const errorOf = (site: string, field: keyof Degrees) =>
    mutation.fieldError(`/places/${places.findIndex((place) => place.site === site)}/${field}`);
  const save = async () => {
    setTried(true);
    if (places.some(({ latitude, longitude }) => Number.isNaN(latitude + longitude))) return;
    const body = { contact: contact.trim() === '' ? null : contact.trim(), places };
    await mutation.run(async () => {
      await ask(weatherAnswerSchema, '/api/weather', { method: 'PUT', body });
      setTyped({});
      setTried(false);
      setSaved(true);
      await onSaved();
    });
  };
  return { sites, degreesOf, type, wrong, errorOf, contact, setContact, isSaved, save, mutation };
}

function PlacesForm(props: PlacesFormProps) {
  const { text } = useWords();
  const { sites, degreesOf, type, wrong, errorOf, contact, setContact, isSaved, save, mutation } = usePlaces(props);
  return (
    <form
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      {sites.map(({ id, name }) => {
        const { latitude, longitude } = degreesOf(id);
        return (
          <Fragment key={id}>
            <TextField
              label={text('page-weather.latitude', { siteName: name })}
              unit="°"
              inputMode="decimal"
              value={latitude}
              onValue={(value) => type(id, { latitude: value })}
              error={wrong(latitude, longitude) ?? errorOf(id, 'latitude')}
            />
            <TextField
              label={text('page-weather.longitude', { siteName: name })}
              unit="°"
              inputMode="decimal"
              value={longitude}
              onValue={(value) => type(id, { longitude: value })}
              hint={text('page-weather.degrees.hint')}
              error={wrong(longitude, latitude) ?? errorOf(id, 'longitude')}
            />
          </Fragment>
        );
      })}
      <TextField
        label={text('page-weather.contact')}
        value={contact}
        onValue={setContact}
        hint={text('page-weather.contact.hint')}
        error={mutation.fieldError('/contact')}
      />
      <Refusal error={mutation.error} />
      <button type="submit" class="primary" disabled={mutation.busy}>
        {text('page-weather.save')}
      </button>
      {isSaved && <p role="status">{text('page-weather.saved')}</p>}
    </form>
  );
}

/** With a point or a comma; no number is NaN. */
const numberOf = (text: string): number => (text.trim() === '' ? Number.NaN : Number(text.trim().replace(',', '.')));
