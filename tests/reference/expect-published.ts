import { expect } from 'vitest';
import type { PublishedCheck } from './published-check.ts';

export function expectPublished({ ours, published, tolerance }: PublishedCheck): void {
  expect(Math.abs(ours() - published)).toBeLessThanOrEqual(tolerance);
}
