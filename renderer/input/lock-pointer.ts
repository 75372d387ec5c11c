/**
 * Holds the pointer on an element, so that only movement counts and no edge of the screen stops it. 'raw': movement as the device
 * tells it; 'plain': with the system's own acceleration; null where the browser will not.
 */
export async function lockPointer(element: HTMLElement): Promise<'raw' | 'plain' | null> {
  try {
    // Older browsers answer with nothing and take no wish for raw movement.
    if ((await firmly(element.requestPointerLock({ unadjustedMovement: true }))) === 'promised') return 'raw';
    return 'plain';
  } catch {
    // Some systems refuse raw movement; the plain lock still works.
  }
  try {
    await element.requestPointerLock();
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
