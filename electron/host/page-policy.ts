/**
 * What the page may do, sent with every file of it by both shells. Scripts, styles and workers come from the page's own files
 * only, nothing inline; pictures and sounds may also be made by the page itself (blob:, data:).
 */
const CONTENT_POLICY = [
  "default-src 'none'",
  "script-src 'self'",
  "worker-src 'self'",
  "style-src 'self'",
  "img-src 'self' data: blob:",
  "media-src 'self' blob:",
  "font-src 'self'",
  "connect-src 'self'",
  "base-uri 'none'",
  "form-action 'none'",
  "frame-ancestors 'none'",
].join('; ');

export const PAGE_HEADERS: Readonly<Record<string, string>> = {
  'content-security-policy': CONTENT_POLICY,
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-embedder-policy': 'require-corp',
  'cross-origin-resource-policy': 'same-origin',
  'permissions-policy':
    'camera=(), microphone=(), geolocation=(), usb=(), serial=(), hid=(), midi=(), gamepad=(self), fullscreen=(self)',
  'cache-control': 'no-store',
};
