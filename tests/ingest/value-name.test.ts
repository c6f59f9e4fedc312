import { expect, test } from 'vitest';
import { readValueName } from '../../ingest/decode/value-name.ts';

const rows: [string, string | undefined][] = [
  // name, "quantity unit part"
  ['temperature', 'temperature - '],
  ['Temperature', 'temperature - '],
  ['core_temperature', 'temperature - core'],
  ['Core Temperature', 'temperature - core'],
  ['temperature_2', 'temperature - 2'],
  ['temp2', 'temperature - 2'],
  ['TempC_DS18B20', 'temperature C ds18b20'],
  ['TempC1', 'temperature C 1'],
  ['temperature_F', 'temperature F '],
  ['bed_temp_f', 'temperature F bed'],
  ['soil_temperature', 'temperature - soil'],
  ['Temperatur Kern', 'temperature - kern'],
  ['Hum_SHT', 'humidity - sht'],
  ['relative_humidity_1', 'humidity - 1'],
  ['soil_moisture', 'moisture - '],
  ['water_SOIL', 'moisture - '],
  ['VWC', 'moisture - '],
  ['co2', 'co2 - '],
  ['CO2_ppm', 'co2 ppm '],
  ['Carbon Dioxide', 'co2 - '],
  ['wifi_signal', 'rssi - '],
  ['BatV', 'battery V '],
  ['battery_voltage', 'battery V '],
  ['battery_mV', 'battery mV '],
  ['battery_level', 'charge % '],
  ['Battery (%)', 'charge % '],
  ['batt_pct_2', 'charge % 2'],
  // None of ours, or in doubt.
  ['battery', undefined],
  ['battery_level_mV', undefined],
  ['battery_low_level', undefined],
  ['battery_temperature', undefined],
  ['humidity_temperature', undefined],
  ['esp32_temperature', undefined],
  ['Internal Temperature', undefined],
  ['cpu_temp', undefined],
  ['target_temperature', undefined],
  ['temperature_setpoint', undefined],
  ['max_temperature', undefined],
  ['temperature_alarm', undefined],
  ['temperature_unit', undefined],
  ['temperature_calibration', undefined],
  ['color_temp', undefined],
  ['dew_point_temperature', undefined],
  ['absolute_humidity', undefined],
  ['soil_humidity', undefined],
  ['co2_equivalent', undefined],
  ['conduct_SOIL', undefined],
  ['attempt', undefined],
  ['template', undefined],
  ['', undefined],
  [`${'temperature_'.repeat(9)}x`, undefined],
];

test.each(rows)('readValueName() of %j', (name, expected) => {
  const read = readValueName(name);
  expect(read && `${read.quantity} ${read.unit ?? '-'} ${read.part}`).toBe(expected);
});
