/** The one channel between preload and main process. The page never sees it: it is given one function per verb. */
export const CALL_CHANNEL = 'kerfhand:call';
