import { z } from 'zod';
import type { Prices } from '../../sim-core/index.ts';

const price = z.number().min(0).max(1_000_000);

/** What things cost, for the bill of a run: the core's Prices, and the sign that stands before an amount. */
export const priceSettingsSchema = z.strictObject({
  currency: z.string().trim().min(1).max(6),
  electrode: price,
  nozzle: price,
  shield: price,
  gasPerM3: price,
  platePerKg: z.strictObject({ 'mild-steel': price, 'stainless-steel': price, aluminium: price }),
  stationPerHour: price,
}) satisfies z.ZodType<Prices & { currency: string }>;
export type PriceSettings = z.infer<typeof priceSettingsSchema>;

/** Invented round figures, in no currency: a school puts in its own. */
export const DEFAULT_PRICES: PriceSettings = {
  currency: '¤',
  electrode: 10,
  nozzle: 8,
  shield: 20,
  gasPerM3: 0.5,
  platePerKg: { 'mild-steel': 2, 'stainless-steel': 6, aluminium: 5 },
  stationPerHour: 40,
};
