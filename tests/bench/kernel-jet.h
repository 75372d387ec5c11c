/* Part of kernel.c: align-layers, trace-rays, surroundings, jet, melt-rays and heat-walls of sim-core/physics, statement for statement. */

static int nearest(double x) { return x < 0 ? -(int)(0.5 - x) : (int)(x + 0.5); }

static void alignLayers(double tanX, double tanY) {
  int count = 0;
  for (int k = 0; k < layers; k++) {
    double depth = (k + 0.5) * layerMm;
    shiftX[k] = nearest((-tanX * depth) / cellMm);
    shiftY[k] = nearest((-tanY * depth) / cellMm);
    if (count == 0 || bandX[count - 1] != shiftX[k] || bandY[count - 1] != shiftY[k]) {
      bandX[count] = shiftX[k];
      bandY[count] = shiftY[k];
      count++;
    }
    bandEnd[count - 1] = k + 1;
  }
  bandCount = count;
}

static int firstMetal(int ix, int iy) {
  int k = 0;
  for (int band = 0; band < bandCount; band++) {
    int end = bandEnd[band], cx = ix + bandX[band], cy = iy + bandY[band];
    if (cx >= 0 && cx < nx && cy >= 0 && cy < ny) {
      int column = cy * nx + cx, opened = openedTo[column], from = k, base = column * layers;
      if (k < opened) k = opened;
      while (k < end && gone[base + k] >= 1) k++;
      if (from <= opened && k > opened) openedTo[column] = (uint8_t)k;
      if (k < end) return k;
    }
    k = end;
  }
  return layers;
}

static double depthAt(int ix, int iy, int k) {
  return k < layers ? k + gone[((iy + shiftY[k]) * nx + ix + shiftX[k]) * layers + k] : layers;
}

static void makeRoom(double atMost) {
  if (atMost <= rayRoom) return;
  rayRoom = 2 * (int)atMost;
  rayX = realloc(rayX, rayRoom * sizeof(int));
  rayY = realloc(rayY, rayRoom * sizeof(int));
  rayLayer = realloc(rayLayer, rayRoom * sizeof(int));
  rayDepth = realloc(rayDepth, rayRoom * sizeof(double));
  rayWeight = realloc(rayWeight, rayRoom * sizeof(double));
}

static void traceRays(const double *pose) {
  double heightMm = pose[2], tanX = pose[3], tanY = pose[4];
  lengthening = sqrt(1 + tanX * tanX + tanY * tanY);
  cosine = 1 / lengthening;
  footX = pose[0] - tanX * heightMm - x0Mm;
  footY = pose[1] - tanY * heightMm - y0Mm;
  double path0 = heightMm * lengthening;
  double nozzleRadius = jetRadiusMm * (1 + jetFlare * openShare);
  radiusTop = nozzleRadius + openSpread * path0;
  double pathPerLayer = layerMm * lengthening;
  double radiusBottom = radiusTop + jetSpread * layers * pathPerLayer;
  double reach = (radiusBottom * lengthening) / (1 - jetSpread * (lengthening - cosine)) + cellMm;
  double widest = radiusBottom + jetSpread * reach * sqrt(tanX * tanX + tanY * tanY) * cosine;
  double alongX = 1 - tanX * tanX * cosine * cosine, alongXY = tanX * tanY * cosine * cosine;
  double halfY = widest * sqrt(1 + tanY * tanY) + cellMm;
  int iyFrom = (int)((footY - halfY) / cellMm), iyTo = (int)((footY + halfY) / cellMm + 1);
  makeRoom((iyTo - iyFrom + 1) * ((2 * widest * lengthening) / cellMm + 8));
  int count = 0, topColumn = bandY[0] * nx + bandX[0], lastX = shiftX[layers - 1], lastY = shiftY[layers - 1];
  int gridX0 = lastX < 0 ? -lastX : 0, gridX1 = lastX > 0 ? nx - lastX : nx;
  int gridY0 = lastY < 0 ? -lastY : 0, gridY1 = lastY > 0 ? ny - lastY : ny;
  double sum = 0, met = 0, depths = 0, deepest = 0;
  for (int iy = iyFrom; iy < iyTo; iy++) {
    double oy = (iy + 0.5) * cellMm - footY, oyTan = oy * tanY, oySquare = oy * oy;
    double inside = alongX * widest * widest - cosine * cosine * oySquare;
    double half = (inside > 0 ? sqrt(inside) / alongX : 0) + cellMm;
    double middle = footX + (alongXY * oy) / alongX;
    int ixFrom = (int)((middle - half) / cellMm), ixTo = (int)((middle + half) / cellMm + 1);
    int rowInGrid = iy >= gridY0 && iy < gridY1;
    for (int ix = ixFrom; ix < ixTo; ix++) {
      double ox = (ix + 0.5) * cellMm - footX;
      double along = -(ox * tanX + oyTan) * cosine;
      double r2 = ox * ox + oySquare - along * along;
      double near = radiusBottom + jetSpread * along;
      if (r2 >= near * near) continue;
      int k = 0;
      double depth = layers;
      if (rowInGrid && ix >= gridX0 && ix < gridX1) {
        int top = iy * nx + ix;
        double first = radiusTop + jetSpread * (along + pathPerLayer);
        if (r2 >= first * first && gone[(top + topColumn) * layers] < 1) continue;
        for (int band = 0; band < bandCount; band++) {
          int end = bandEnd[band], column = top + bandY[band] * nx + bandX[band];
          int opened = openedTo[column], from = k, base = column * layers;
          double there = 1;
          if (k < opened) k = opened;
          while (k < end) {
            there = gone[base + k];
            if (there < 1) break;
            k++;
          }
          if (from <= opened && k > opened) openedTo[column] = (uint8_t)k;
          if (k < end) {
            depth = k + there;
            break;
          }
          k = end;
        }
      } else {
        k = firstMetal(ix, iy);
        depth = depthAt(ix, iy, k);
      }
      double radius = radiusTop + jetSpread * (along + depth * pathPerLayer);
      double radius2 = radius * radius;
      if (r2 >= radius2) continue;
      double ratio = r2 / radius2;
      double weight = ((1 - ratio) * (1 + jetShape * ratio)) / radius2;
      rayX[count] = ix;
      rayY[count] = iy;
      rayLayer[count] = k;
      rayDepth[count] = depth;
      rayWeight[count] = weight;
      count++;
      sum += weight;
      if (k < layers) {
        met += weight;
        depths += weight * depth;
      }
      if (depth > deepest) deepest = depth;
    }
  }
  rayCount = count;
  raySum = sum;
  metSum = met;
  depthSum = depths;
  rayDeepest = deepest;
}

static void lookAlongJet(const double *pose) {
  alignLayers(pose[3], pose[4]);
  traceRays(pose);
  double ringMm = radiusTop * RING_RADII, tanX = pose[3], tanY = pose[4];
  double square = tanX * tanX + tanY * tanY, stretch = square > 0 ? (lengthening - 1) / square : 0;
  int open = 0;
  for (int n = 0; n < PLACES; n++) {
    double more = stretch * (RING_X[n] * tanX + RING_Y[n] * tanY);
    int ix = (int)((footX + (RING_X[n] + more * tanX) * ringMm) / cellMm), iy = (int)((footY + (RING_Y[n] + more * tanY) * ringMm) / cellMm);
    int k = firstMetal(ix, iy);
    floorSum += depthAt(ix, iy, k);
    if (k >= layers) open++;
  }
  double throughShare = raySum > 0 ? (raySum - metSum) / raySum : 1;
  meanDepthMm = metSum > 0 ? (depthSum / metSum) * layerMm : 0;
  openShare = 1 - (1 - throughShare);
}

static void meltRays(void) {
  int lastEntry = entries - 2;
  double perWeight = raySum > 0 ? (powerW * stepS) / raySum : 0;
  double cellVolume = cellMm * cellMm * layerMm, heatVolume = heatCellMm * heatCellMm * heatLayerMm;
  double contact = (cellMm * cellMm * stepS) / contactDepthMm;
  double wallLossHereMm = wallLossMm * sqrt(jetRadiusMm), perLength = (lengthening * layerMm) / wallLossHereMm;
  double leastNeed = thrownJPerMm3 * 0.02, walls = 0;
  for (int ray = 0; ray < rayCount; ray++) {
    double left = rayWeight[ray] * perWeight;
    int k = rayLayer[ray];
    if (k >= layers) continue;
    double down = rayDepth[ray] * perLength;
    double arrived = left / (1 + down * (1 + down * (0.5 + down * (1.0 / 6))));
    walls += left - arrived;
    left = arrived;
    int ix = rayX[ray], iy = rayY[ray], first = 1;
    while (left > 0 && k < layers) {
      int cx = ix + shiftX[k], cy = iy + shiftY[k];
      if (cx < 0 || cx >= nx || cy < 0 || cy >= ny) break;
      int cell = (cy * nx + cx) * layers + k;
      double before = gone[cell];
      if (before >= 1) {
        k++;
        continue;
      }
      int warm = heatPlane[k] + (cy >> 2) * heatNx + (cx >> 2);
      double share = metalShare[warm], held = heatJ[warm];
      double density = share > 1e-9 ? held / (share * heatVolume) : 0;
      if (first) {
        first = 0;
        int stepX = (cx & 3) < 2 ? -1 : 1, stepY = (cy & 3) < 2 ? -heatNx : heatNx;
        double partX = (cx & 3) == 0 || (cx & 3) == 3 ? 0.375 : 0.125, partY = (cy & 3) == 0 || (cy & 3) == 3 ? 0.375 : 0.125;
        double w00 = (1 - partX) * (1 - partY), w10 = partX * (1 - partY), w01 = (1 - partX) * partY, w11 = partX * partY;
        double metalNear =
            w00 * share + w10 * metalShare[warm + stepX] + w01 * metalShare[warm + stepY] + w11 * metalShare[warm + stepX + stepY];
        double heatNear = w00 * held + w10 * heatJ[warm + stepX] + w01 * heatJ[warm + stepY] + w11 * heatJ[warm + stepX + stepY];
        double near = metalNear > 1e-9 ? heatNear / (metalNear * heatVolume) : 0;
        double place = near * perJ;
        int entry = place < lastEntry ? (place > 0 ? (int)place : 0) : lastEntry;
        double base = temperatureK[entry];
        double rise = base + (place - entry) * (temperatureK[entry + 1] - base);
        double given = 0;
        if (rise < meltingK) {
          given = contact * conductivityOf[entry] * (meltingK - rise) * (metalNear < 0.5 ? 2 * metalNear : 1);
          if (given > left) given = left;
          left -= given;
        }
        if (metalNear <= 1e-9) held += given;
        else if (given > 0) {
          double perMetal = given / metalNear;
          int corner = warm + stepX + stepY;
          held += perMetal * w00 * share;
          heatJ[warm + stepX] += perMetal * w10 * metalShare[warm + stepX];
          heatJ[warm + stepY] += perMetal * w01 * metalShare[warm + stepY];
          heatJ[corner] += perMetal * w11 * metalShare[corner];
        }
        if (left <= 0) {
          heatJ[warm] = held;
          break;
        }
      }
      double need = thrownJPerMm3 > density * 1.02 ? thrownJPerMm3 - density : leastNeed;
      double volume = left / need, there = (1 - before) * cellVolume;
      if (volume >= there) {
        volume = there;
        gone[cell] = 1;
      } else {
        double after = before + volume / cellVolume;
        gone[cell] = after > 0.999999 ? 1 : after;
      }
      left -= volume * need;
      double shareAfter = share - volume / heatVolume;
      metalShare[warm] = shareAfter > 1e-9 ? shareAfter : 0;
      heatJ[warm] = held - volume * density;
      k++;
    }
  }
  wallJ = walls;
}

static void heatWalls(void) {
  int cells[4 * PLACES];
  double weights[4 * PLACES];
  if (wallJ <= 0) return;
  double ringMm = radiusTop * RING_RADII + heatCellMm * 0.5;
  int deepest = (int)(meanDepthMm / heatLayerMm), levels = deepest + 1 < heatLayers ? deepest + 1 : heatLayers;
  double perLevel = wallJ / levels;
  for (int level = 0; level < levels; level++) {
    int k = level * group + 1, found = 0;
    double alongX = (footX + shiftX[k] * cellMm) / heatCellMm - 0.5, alongY = (footY + shiftY[k] * cellMm) / heatCellMm - 0.5;
    double ring = ringMm / heatCellMm, total = 0;
    for (int n = 0; n < PLACES; n++) {
      double x = alongX + RING_X[n] * ring, y = alongY + RING_Y[n] * ring;
      int hx = (int)x, hy = (int)y;
      if (x < 0 || y < 0 || hx + 1 >= heatNx || hy + 1 >= heatNy) continue;
      for (int corner = 0; corner < 4; corner++) {
        int right = corner & 1, up = corner >> 1, cell = (level * heatNy + hy + up) * heatNx + hx + right;
        double weight = (right ? x - hx : 1 - x + hx) * (up ? y - hy : 1 - y + hy) * metalShare[cell];
        if (weight <= 0) continue;
        cells[found] = cell;
        weights[found++] = weight;
        total += weight;
      }
    }
    if (total < 0.25) continue;
    for (int n = 0; n < found; n++) heatJ[cells[n]] += (perLevel * weights[n]) / total;
  }
}
