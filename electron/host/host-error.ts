import type { ErrorCode } from '../contract.ts';

/** A refusal with one sentence for a person; becomes a `CallError` at the door of the host. */
export class HostError extends Error {
  readonly code: ErrorCode;

  constructor(code: ErrorCode, message: string, options?: ErrorOptions) {
    super(message, options);
    this.name = 'HostError';
    this.code = code;
  }
}
