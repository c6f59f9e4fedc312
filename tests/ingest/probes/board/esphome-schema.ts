/**
 * What of ESPHome's settings our file uses, as its documentation has it (2025.4 to 2025.12: “Core configuration”, “ESP32 platform”,
 * “Wi-Fi”, “MQTT client”, “1-Wire”, “Dallas temperature sensor”, “Analog to digital sensor”, “Sensor filters”). Strict: a key that stands
 * nowhere there is refused. The platform's own validator was not run.
 */
import { parse } from 'yaml';
import { z } from 'zod';

const pin = z.string().regex(/^GPIO(?:[0-9]|[12][0-9]|3[0-9])$/);
const interval = z.string().regex(/^\d+(?:ms|s|min|h)$/);
const published = {
  name: z.string().min(1),
  update_interval: interval,
  state_topic: z.string().regex(/^[^+#]+$/),
  qos: z.union([z.literal(0), z.literal(1), z.literal(2)]),
  retain: z.boolean(),
};
const sensorSchema = z.discriminatedUnion('platform', [
  z.strictObject({
    platform: z.literal('dallas_temp'),
    ...published,
    filters: z.array(z.strictObject({ filter_out: z.literal('nan') })),
  }),
  z.strictObject({
    platform: z.literal('adc'),
    // Pins of ADC1 of an ESP32.
    pin: z.string().regex(/^GPIO3[2-9]$/),
    attenuation: z.enum(['0db', '2.5db', '6db', '12db']),
    unit_of_measurement: z.string(),
    ...published,
    filters: z.tuple([
      z.strictObject({ calibrate_linear: z.array(z.string().regex(/^-?\d+\.?\d* -> -?\d+\.?\d*$/)).min(2) }),
      z.strictObject({ clamp: z.strictObject({ min_value: z.number(), max_value: z.number() }) }),
    ]),
  }),
]);
const settingsSchema = z.strictObject({
  esphome: z.strictObject({ name: z.string().regex(/^[a-z0-9][a-z0-9-]{0,30}$/) }),
  esp32: z.strictObject({
    board: z.string(),
    framework: z.strictObject({ type: z.enum(['arduino', 'esp-idf']) }),
  }),
  logger: z.null(),
  wifi: z.strictObject({ ssid: z.string().max(32), password: z.string().max(64) }),
  mqtt: z.strictObject({
    broker: z.string().min(1),
    port: z.number().int(),
    username: z.string(),
    password: z.string(),
    topic_prefix: z.string(),
    discovery: z.boolean(),
    discover_ip: z.boolean(),
    log_topic: z.null(),
  }),
  one_wire: z.array(z.strictObject({ platform: z.literal('gpio'), pin })),
  sensor: z.array(sensorSchema),
});

export const readEsphome = (text: string) => settingsSchema.parse(parse(text));
