/**
 * Holds the pointer on an element, so that only movement counts and no edge of the screen stops it. 'raw': movement as the device
 * tells it; 'plain': with the system's own acceleration; null where the browser will not.
 */
export async function lockPointer(element: HTMLElement): Promise<'raw' | 'plain' | null> {
  try {
    // Older browsers answer with nothing and take no wish for raw movement.
    const how = await firmly(element.requestPointerLock({ unadjustedMovement: true }));
    escapeLetsGo();
    return how === 'promised' ? 'raw' : 'plain';
  } catch {
    // Some systems refuse raw movement; the plain lock still works.
  }
  try {
    await element.requestPointerLock();
    escapeLetsGo();
    return 'plain';
  } catch {
    return null;
  }
}

async function firmly(answer: Promise<void> | undefined): Promise<'promised' | 'none'> {
  if (answer === undefined) return 'none';
  await answer;
  return 'promised';
}

/** The way out that every page with a held pointer promises. Browsers see to it themselves; a shell without their frame may not. */
function escapeLetsGo(): void {
  const done = new AbortController();
  document.addEventListener('keydown', (event) => event.code === 'Escape' && document.exitPointerLock(), { signal: done.signal });
  document.addEventListener(
    'pointerlockchange',
    () => {
      if (document.pointerLockElement === null) done.abort();
    },
    { signal: done.signal },
  );
}
