import { z } from 'zod';

/** Most bytes of one request, either way in. A shell refuses a larger one before it is read whole. */
export const REQUEST_LIMIT_BYTES = 32 * 1024 * 1024;

// Kinds of value that the contract is made of.
export const id = z.string().regex(/^[0-9a-f-]{36}$/);
export const sha256Hex = z.string().regex(/^[0-9a-f]{64}$/);
export const digestHex = z.string().regex(/^[0-9a-f]{16}$/);
export const timeIso = z.iso.datetime();
/** Base64 with padding, checked for form here and for meaning by the host. */
export const base64 = (maxBytes: number) => z.base64().max(Math.ceil(maxBytes / 3) * 4);
/** Ticks of one run: somewhat over an hour, the same limit as a run file's. */
export const ticks = z.int().min(0).max(1_000_000);
export const count = z.int().min(0).max(100_000_000);
export const finite = z.number();
export const shortText = z.string().min(1).max(200);
/** Name of a file: as long as the system lets it be. */
export const fileName = z.string().min(1);

export const drillIdSchema = z.string().regex(/^[a-z0-9][a-z0-9-]{0,79}$/);
export const seed = z.int().min(0).max(4_294_967_295);
