/** The outside broker as it is configured. */
import type { OutsideBrokerOptions } from '../../ingest/client/outside-options.ts';
import type { Config } from '../../shared/config.ts';
import { ConfigError } from '../../shared/errors.ts';

/** @throws {ConfigError} when none is. */
export function outsideBroker(config: Config): OutsideBrokerOptions {
  if (config.MQTT_URL === undefined) throw new ConfigError('BRANHEARTH_MQTT_URL must name the broker; it was not set');
  return {
    url: config.MQTT_URL,
    clientId: config.MQTT_CLIENT_ID,
    ...(config.MQTT_USERNAME !== undefined && { username: config.MQTT_USERNAME }),
    ...(config.MQTT_PASSWORD !== undefined && { password: config.MQTT_PASSWORD }),
  };
}
