import { DataTexture, type Material, ShaderLib, type Texture, UniformsUtils } from 'three';
import { expect, test } from 'vitest';
import { createPlateField } from '../../renderer/scene/plate-field.ts';
import type { PlateLook } from '../../renderer/scene/plate-look.ts';
import { createHeatTexture, createPlateMaterial } from '../../renderer/scene/plate-material.ts';

const GRID = {
  ...{ cellMm: 1, nx: 8, ny: 8, layers: 1, layerMm: 1, x0Mm: 0, y0Mm: 0 },
  ...{ tileCells: 8, tilesX: 1, tilesY: 1, heatCellsPerTile: 1 },
};

/** The ramp of colours that a renderer is given with a material. */
function rampOf(material: Material): Texture {
  const { vertexShader, fragmentShader, uniforms } = ShaderLib.lambert;
  const shader = { vertexShader, fragmentShader, uniforms: UniformsUtils.clone(uniforms) };
  material.onBeforeCompile(shader as never, undefined as never);
  return shader.uniforms.glowRamp?.value as Texture;
}

test('each plate has a ramp of its own over the same bytes, and lets it go with its material', () => {
  const field = createPlateField(GRID, 6);
  const look: PlateLook = {
    ...{ field, lengthMm: 8, widthMm: 8, skin: new DataTexture(), bareColour: '#888888', map: null, airGap: null },
  };
  const made = () => createPlateMaterial(look, false, createHeatTexture(field), new DataTexture());
  const [first, second] = [made(), made()];
  const [ramp, other] = [rampOf(first), rampOf(second)];
  expect(other).not.toBe(ramp);
  expect((other.image as { data: unknown }).data).toBe((ramp.image as { data: unknown }).data);
  const gone: Texture[] = [];
  for (const texture of [ramp, other]) texture.addEventListener('dispose', ({ target }) => gone.push(target));
  first.dispose();
  expect(gone).toEqual([ramp]);
});
