/**
 * What a home automation hub takes by device discovery, as far as it is documented. Of the parts we send every key is
 * here, and none besides: a key that is misspelt would be passed over in silence there.
 *
 * Sources, read on 2026-11-30: home-assistant.io/integrations/mqtt, "Device discovery payload" (repository commit
 * 5b6f279a); schemas.py of its MQTT integration (DEVICE_DISCOVERY_SCHEMA, commit 0f5c1b54), sensor.py (17309b78) and
 * button.py (05fd736f). From memory: `options`, `suggested_display_precision` and the rules for device classes.
 */
import { z } from 'zod';

const topic = z.string().regex(/^[^+#\0]{1,65535}$/);
const template = z.string().regex(/\{\{.+\}\}/);

const device = z
  .strictObject({
    identifiers: z.array(z.string()).optional(),
    connections: z.array(z.tuple([z.string(), z.string()])).optional(),
    manufacturer: z.string().optional(),
    model: z.string().optional(),
    name: z.string().optional(),
    hw_version: z.string().optional(),
    serial_number: z.string().optional(),
    sw_version: z.string().optional(),
    via_device: z.string().optional(),
    suggested_area: z.string().optional(),
    configuration_url: z.url().optional(),
  })
  .refine(({ identifiers = [], connections = [] }) => identifiers.length + connections.length > 0);

const ofEntity = { unique_id: z.string(), name: z.string(), qos: z.int().min(0).max(2).optional() };

const sensor = z
  .strictObject({
    ...ofEntity,
    platform: z.literal('sensor'),
    value_template: template,
    expire_after: z.int().positive().optional(),
    device_class: z.enum(['temperature', 'moisture', 'enum', 'timestamp']).optional(),
    state_class: z.literal('measurement').optional(),
    unit_of_measurement: z.string().optional(),
    suggested_display_precision: z.int().optional(),
    options: z.array(z.string()).min(1).optional(),
  })
  .superRefine((one, context) => {
    const units: Record<string, string> = { temperature: '°C', moisture: '%' };
    if (one.unit_of_measurement !== units[one.device_class ?? '']) context.addIssue('the unit of another class');
    if ((one.options !== undefined) !== (one.device_class === 'enum')) context.addIssue('options go with enum alone');
    if (one.options !== undefined && one.state_class !== undefined) context.addIssue('enum has no state_class');
  });

const button = z.strictObject({
  ...ofEntity,
  platform: z.literal('button'),
  command_topic: topic,
  command_template: template.optional(),
  payload_press: z.string().optional(),
  device_class: z.enum(['identify', 'restart', 'update']).optional(),
  retain: z.boolean().optional(),
});

/** A part that is to go: its platform and nothing else. */
const withdrawn = z.strictObject({ platform: z.enum(['sensor', 'button']) });

export const documentedDiscovery = z.strictObject({
  device,
  origin: z.strictObject({ name: z.string(), sw_version: z.string().optional(), support_url: z.url().optional() }),
  components: z.record(z.string(), z.union([withdrawn, sensor, button])),
  state_topic: topic,
  availability_topic: topic,
  availability_template: template,
});

/** `<prefix>/device/<object_id>/config`, the id of these letters alone. */
export const documentedTopic = /^homeassistant\/device\/[a-zA-Z0-9_-]+\/config$/;
