/** For which places the weather service is asked. */
import { weatherAnswerSchema, weatherChangeSchema } from '../../../shared/contracts/weather.ts';
import { message } from '../../../shared/messages/message.ts';
import type { Journal } from '../../../shared/store/journal.ts';
import type { WeatherFetcher } from '../../weather/fetch-weather.ts';
import type { Api } from '../api.ts';
import { refuseField } from '../problem.ts';

interface WeatherParts {
  readonly journal: Pick<Journal, 'sites'>;
  readonly weather: WeatherFetcher;
}

export function registerWeather(api: Api, { journal, weather }: WeatherParts): void {
  api.get(
    '/api/weather',
    { config: { access: 'owner' }, schema: { response: { 200: weatherAnswerSchema } } },
    async () => weather.view(),
  );

  api.put(
    '/api/weather',
    {
      config: { access: 'owner', does: 'audit.did.chose-places-of-weather' },
      schema: { body: weatherChangeSchema, response: { 200: weatherAnswerSchema } },
    },
    async (request, reply) => {
      const sites = new Set((await journal.sites.list()).map(({ id }) => id));
      const stranger = request.body.places.findIndex(({ site }) => !sites.has(site));
      if (stranger >= 0) {
        return refuseField(reply, 422, {
          pointer: `/places/${stranger}/site`,
          said: message('problem.not-your-site'),
        });
      }
      await weather.choose(request.body);
      void weather.fetchDue(); // which may take its time
      return weather.view();
    },
  );
}
