// Made from ../../en/quantity.json by `npm run messages`; change that instead.
import type { NoParams } from '../../param-types.ts';

export interface QuantityParams {
  'quantity.temperature.name': NoParams;
  'quantity.temperature.short': NoParams;
  'quantity.humidity.name': NoParams;
  'quantity.humidity.short': NoParams;
  'quantity.humidity.sign': NoParams;
  'quantity.humidity.chart': NoParams;
  'quantity.humidity.hint': NoParams;
  'quantity.moisture.name': NoParams;
  'quantity.moisture.short': NoParams;
  'quantity.moisture.sign': NoParams;
  'quantity.moisture.chart': NoParams;
  'quantity.moisture.hint': NoParams;
  'quantity.co2.name': NoParams;
  'quantity.co2.short': NoParams;
  'quantity.co2.sign': NoParams;
  'quantity.co2.chart': NoParams;
  'quantity.battery.name': NoParams;
  'quantity.battery.short': NoParams;
  'quantity.battery.sign': NoParams;
  'quantity.charge.name': NoParams;
  'quantity.charge.short': NoParams;
  'quantity.charge.sign': NoParams;
  'quantity.rssi.name': NoParams;
  'quantity.rssi.short': NoParams;
  'quantity.rssi.sign': NoParams;
}
