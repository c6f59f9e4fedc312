import { DeliverySettings } from '../notify/delivery-settings.ts';
import { AirAheadKeeper, type AirAheadParts } from '../services/air-ahead/keep-air-ahead.ts';
import { WeatherFetcher, type WeatherParts } from '../weather/fetch-weather.ts';
import type { InstallationParts } from './installation.ts';
import type { Services } from './open-services.ts';

/** What is foretold of the air, by programs and by the weather service. It asks nobody before `weather.start()`. */
export function openAirAhead(
  { version, machineNowMs, guard }: Pick<InstallationParts, 'version' | 'machineNowMs' | 'guard'>,
  { config, journal, clock, log }: Pick<Services, 'config' | 'journal' | 'clock' | 'log'>,
  more: Pick<AirAheadParts, 'issued'> & Pick<WeatherParts, 'isOurs'> = {},
) {
  const airAhead = new AirAheadKeeper({ journal, clock, log, issued: more.issued });
  const settings = new DeliverySettings(journal);
  const weather = new WeatherFetcher({
    journal,
    airAhead,
    log,
    version,
    url: config.WEATHER_URL,
    nowMs: machineNowMs,
    allowed: () => settings.allowed(),
    guard,
    // A clock that runs fast has no weather of this world.
    isOurs: () => config.CLOCK === undefined && (more.isOurs?.() ?? true),
  });
  return { airAhead, weather };
}
