/*
 * The hot kernel of the core once more in C, for the benchmark only: one tick's jet and conduction, statement for statement as
 * in sim-core/physics (align-layers, trace-rays, surroundings, jet, melt-rays, heat-walls, heat-field). Only + - * / and sqrt
 * are used and products are not contracted, so that both must end in the same bits.
 *
 * kernel INPUT OUTPUT: INPUT holds the case as written by kernel-case.ts; OUTPUT receives gone, heatJ and metal share. Prints
 * the processor time of each repeat, s, one a line.
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

enum { INTS = 16, NUMBERS = 24, PLACES = 12, POSE = 5, BOX = 4 };

static const double RING_X[PLACES] = {1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5, 0, 0.5, 0.866025403784};
static const double RING_Y[PLACES] = {0, 0.5, 0.866025403784, 1, 0.866025403784, 0.5, 0, -0.5, -0.866025403784, -1, -0.866025403784, -0.5};
static const double RING_RADII = 1.15;

/* The case: sizes, constants, fields, poses. */
static int nx, ny, layers, heatNx, heatNy, heatLayers, entries, ticks, parts, strideTicks, steps, repeats, group;
static double cellMm, layerMm, heatCellMm, heatLayerMm, jetRadiusMm, jetSpread, jetShape, jetFlare, climbWidths, ventShare;
static double contactDepthMm, wallLossRadii, perJ, meltingK, thrownJPerMm3, powerW, stepS, lateral, through, cellPerJ, firstOpenShare, x0Mm, y0Mm;
static double *gone, *heatJ, *metalShare, *temperatureK, *conductivityOf, *poses;
static int32_t *boxes;
static uint8_t *openedTo;
static double *riseK, *conductivity;
static int *partialFrom, *partialTo;

/* Scratch of the jet. */
static int *shiftX, *shiftY, *bandEnd, *bandX, *bandY, bandCount, *heatPlane;
static int *rayX, *rayY, *rayLayer, rayCount, rayRoom;
static double *rayDepth, *rayWeight;
static double raySum, metSum, depthSum, rayDeepest, footX, footY, radiusTop, lengthening, cosine;
static double openShare, meanDepthMm, escaping, wallJ;

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
  radiusTop = nozzleRadius + jetSpread * path0;
  double pathPerLayer = layerMm * lengthening;
  double radiusBottom = nozzleRadius + jetSpread * (path0 + layers * pathPerLayer);
  double reach = (radiusBottom * lengthening) / (1 - jetSpread * (lengthening - cosine)) + cellMm;
  double widest = radiusBottom + jetSpread * reach * sqrt(tanX * tanX + tanY * tanY) * cosine;
  double alongX = 1 - tanX * tanX * cosine * cosine, alongXY = tanX * tanY * cosine * cosine;
  double halfY = widest * sqrt(1 + tanY * tanY) + cellMm;
  int iyFrom = (int)((footY - halfY) / cellMm), iyTo = (int)((footY + halfY) / cellMm + 1);
  makeRoom((iyTo - iyFrom + 1) * ((2 * widest * lengthening) / cellMm + 8));
  int oneBand = bandCount == 1, count = 0;
  double sum = 0, met = 0, depths = 0, deepest = 0;
  for (int iy = iyFrom; iy < iyTo; iy++) {
    double oy = (iy + 0.5) * cellMm - footY, oyTan = oy * tanY, oySquare = oy * oy;
    double inside = alongX * widest * widest - cosine * cosine * oySquare;
    double half = (inside > 0 ? sqrt(inside) / alongX : 0) + cellMm;
    double middle = footX + (alongXY * oy) / alongX;
    int ixFrom = (int)((middle - half) / cellMm), ixTo = (int)((middle + half) / cellMm + 1);
    int rowInGrid = oneBand && iy >= 0 && iy < ny;
    for (int ix = ixFrom; ix < ixTo; ix++) {
      double ox = (ix + 0.5) * cellMm - footX;
      double along = -(ox * tanX + oyTan) * cosine;
      double r2 = ox * ox + oySquare - along * along;
      double near = radiusBottom + jetSpread * along;
      if (r2 >= near * near) continue;
      int k = 0;
      double depth = layers;
      if (rowInGrid && ix >= 0 && ix < nx) {
        int column = iy * nx + ix, base = column * layers;
        double there = 1;
        k = openedTo[column];
        while (k < layers) {
          there = gone[base + k];
          if (there < 1) break;
          k++;
        }
        openedTo[column] = (uint8_t)k;
        if (k < layers) depth = k + there;
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
  double ringMm = radiusTop * RING_RADII, deepest = 0;
  int open = 0;
  for (int n = 0; n < PLACES; n++) {
    int ix = (int)((footX + RING_X[n] * ringMm) / cellMm), iy = (int)((footY + RING_Y[n] * ringMm) / cellMm);
    int k = firstMetal(ix, iy);
    double depth = depthAt(ix, iy, k);
    if (k >= layers) open++;
    if (depth > deepest) deepest = depth;
  }
  double throughShare = raySum > 0 ? (raySum - metSum) / raySum : 1;
  meanDepthMm = metSum > 0 ? (depthSum / metSum) * layerMm : 0;
  double climbMm = meanDepthMm - deepest * layerMm;
  double climb = climbMm > 0 ? climbMm / (climbWidths * 2 * radiusTop) : 0;
  double vent = (throughShare + open / 24.0) / ventShare;
  double underShare = vent < 1 ? vent : 1;
  double escapeUp = 1 / (1 + climb * climb);
  escaping = underShare + (1 - underShare) * escapeUp;
  openShare = 1 - (1 - throughShare);
}

static void meltRays(void) {
  int lastEntry = entries - 2;
  double perWeight = raySum > 0 ? (powerW * stepS) / raySum : 0;
  double cellVolume = cellMm * cellMm * layerMm, heatVolume = heatCellMm * heatCellMm * heatLayerMm;
  double contact = (cellMm * cellMm * stepS) / contactDepthMm, keeping = 1 - escaping;
  double wallLossMm = wallLossRadii * sqrt(jetRadiusMm), perLength = (lengthening * layerMm) / wallLossMm;
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
      int stepX = (cx & 3) < 2 ? -1 : 1, stepY = (cy & 3) < 2 ? -heatNx : heatNx;
      double partX = (cx & 3) == 0 || (cx & 3) == 3 ? 0.375 : 0.125, partY = (cy & 3) == 0 || (cy & 3) == 3 ? 0.375 : 0.125;
      double w00 = (1 - partX) * (1 - partY), w10 = partX * (1 - partY), w01 = (1 - partX) * partY, w11 = partX * partY;
      double metalNear =
          w00 * share + w10 * metalShare[warm + stepX] + w01 * metalShare[warm + stepY] + w11 * metalShare[warm + stepX + stepY];
      double heatNear = w00 * held + w10 * heatJ[warm + stepX] + w01 * heatJ[warm + stepY] + w11 * heatJ[warm + stepX + stepY];
      double near = metalNear > 1e-9 ? heatNear / (metalNear * heatVolume) : 0;
      if (first) {
        first = 0;
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
        double kept = left * keeping;
        given += kept;
        left -= kept;
        if (given > 0) {
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

static void readCells(int from, int to) {
  int last = entries - 2;
  for (int cell = from; cell < to; cell++) {
    double share = metalShare[cell];
    if (share < 1e-9) {
      riseK[cell] = 0;
      conductivity[cell] = 0;
      continue;
    }
    double place = (share == 1 ? heatJ[cell] : heatJ[cell] / share) * cellPerJ;
    int entry = place < last ? (place > 0 ? (int)place : 0) : last;
    double base = temperatureK[entry];
    riseK[cell] = base + (place - entry) * (temperatureK[entry + 1] - base);
    conductivity[cell] = conductivityOf[entry];
  }
}

static void readWhole(int from, int to) {
  int last = entries - 2;
  for (int cell = from; cell < to; cell++) {
    double place = heatJ[cell] * cellPerJ;
    int entry = place < last ? (place > 0 ? (int)place : 0) : last;
    double base = temperatureK[entry];
    riseK[cell] = base + (place - entry) * (temperatureK[entry + 1] - base);
    conductivity[cell] = conductivityOf[entry];
  }
}

static void readRow(int row, int left, int right) {
  int start = row * heatNx, from = left, to = right;
  while (from < right && metalShare[start + from] == 1) from++;
  if (from == right) {
    partialFrom[row] = heatNx;
    partialTo[row] = 0;
    readWhole(start + left, start + right);
    return;
  }
  while (metalShare[start + to - 1] == 1) to--;
  partialFrom[row] = from;
  partialTo[row] = to;
  readWhole(start + left, start + from);
  readCells(start + from, start + to);
  readWhole(start + to, start + right);
}

static double flowWhole(int from, int to, int beside, int below, double entering) {
  for (int cell = from; cell < to; cell++) {
    double rise = riseK[cell], conducts = conductivity[cell], held = heatJ[cell] + entering;
    entering = lateral * (conducts + conductivity[cell + 1]) * (rise - riseK[cell + 1]);
    held -= entering;
    int across = cell + beside, under = cell + below;
    double sideways = lateral * (conducts + conductivity[across]) * (rise - riseK[across]);
    held -= sideways;
    heatJ[across] += sideways;
    if (below != 0) {
      double down = through * (conducts + conductivity[under]) * (rise - riseK[under]);
      held -= down;
      heatJ[under] += down;
    }
    heatJ[cell] = held;
  }
  return entering;
}

static double least(double a, double b) { return a < b ? a : b; }

static double flowPartial(int from, int to, int beside, int below, double entering) {
  for (int cell = from; cell < to; cell++) {
    double rise = riseK[cell], conducts = conductivity[cell], share = metalShare[cell], held = heatJ[cell] + entering;
    int across = cell + beside, under = cell + below;
    entering = lateral * (conducts + conductivity[cell + 1]) * least(share, metalShare[cell + 1]) * (rise - riseK[cell + 1]);
    held -= entering;
    double sideways = lateral * (conducts + conductivity[across]) * least(share, metalShare[across]) * (rise - riseK[across]);
    held -= sideways;
    heatJ[across] += sideways;
    if (below != 0) {
      double down = through * (conducts + conductivity[under]) * least(share, metalShare[under]) * (rise - riseK[under]);
      held -= down;
      heatJ[under] += down;
    }
    heatJ[cell] = held;
  }
  return entering;
}

/* The box never touches the rim of the grid: the margin around the plate holds no metal. */
static void stepConduction(const int32_t *box) {
  int ix0 = box[0], iy0 = box[1], ix1 = box[2], iy1 = box[3];
  for (int k = 0; k < heatLayers; k++)
    for (int iy = iy0 - 1; iy < iy1 + 1; iy++) readRow(k * heatNy + iy, ix0 - 1, ix1 + 1);
  for (int k = 0; k < heatLayers; k++) {
    int below = k + 1 < heatLayers ? heatNy : 0;
    for (int iy = iy0 - 1; iy < iy1; iy++) {
      int row = k * heatNy + iy, start = row * heatNx;
      if (iy < iy0) {
        for (int cell = start + ix0; cell < start + ix1; cell++) {
          int next = cell + heatNx;
          double joules = lateral * (conductivity[cell] + conductivity[next]) * least(metalShare[cell], metalShare[next]) *
                          (riseK[cell] - riseK[next]);
          heatJ[cell] -= joules;
          heatJ[next] += joules;
        }
        continue;
      }
      int low = partialFrom[row] - 1, high = partialTo[row];
      if (partialFrom[row + 1] < low) low = partialFrom[row + 1];
      if (partialTo[row + 1] > high) high = partialTo[row + 1];
      if (partialFrom[row + below] < low) low = partialFrom[row + below];
      if (partialTo[row + below] > high) high = partialTo[row + below];
      int rim = start + ix0 - 1;
      double entering = lateral * (conductivity[rim] + conductivity[rim + 1]) * least(metalShare[rim], metalShare[rim + 1]) *
                        (riseK[rim] - riseK[rim + 1]);
      heatJ[rim] -= entering;
      int careful = low < ix0 ? ix0 : low < ix1 ? low : ix1;
      int again = high < careful ? careful : high < ix1 ? high : ix1;
      entering = flowWhole(start + ix0, start + careful, heatNx, below * heatNx, entering);
      entering = flowPartial(start + careful, start + again, heatNx, below * heatNx, entering);
      entering = flowWhole(start + again, start + ix1, heatNx, below * heatNx, entering);
      heatJ[start + ix1] += entering;
    }
  }
}

static void run(void) {
  openShare = firstOpenShare;
  for (int tick = 0; tick < ticks; tick++) {
    for (int part = 0; part < parts; part++) {
      lookAlongJet(poses + (tick * parts + part) * POSE);
      meltRays();
      heatWalls();
    }
    if (tick % strideTicks == 0)
      for (int n = 0; n < steps; n++) stepConduction(boxes + tick * BOX);
  }
}

static double processorSeconds(void) {
  struct timespec now;
  clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
  return now.tv_sec + now.tv_nsec / 1e9;
}

static void *take(FILE *file, size_t count, size_t size) {
  void *memory = malloc(count * size);
  if (!memory || fread(memory, size, count, file) != count) {
    fprintf(stderr, "The case breaks off.\n");
    exit(1);
  }
  return memory;
}

int main(int argc, char **argv) {
  FILE *file = argc == 3 ? fopen(argv[1], "rb") : NULL;
  if (!file) {
    fprintf(stderr, "usage: kernel INPUT OUTPUT\n");
    return 1;
  }
  int32_t *ints = take(file, INTS, sizeof(int32_t));
  int *const sizes[] = {&nx, &ny, &layers, &heatNx, &heatNy, &heatLayers, &entries, &ticks, &parts, &strideTicks, &steps, &repeats, &group};
  for (size_t n = 0; n < sizeof sizes / sizeof *sizes; n++) *sizes[n] = ints[n];
  double *numbers = take(file, NUMBERS, sizeof(double));
  double *const constants[] = {&cellMm, &layerMm, &heatCellMm, &heatLayerMm, &jetRadiusMm, &jetSpread, &jetShape, &jetFlare,
                               &climbWidths, &ventShare, &contactDepthMm, &wallLossRadii, &perJ, &meltingK, &thrownJPerMm3,
                               &powerW, &stepS, &lateral, &through, &cellPerJ, &firstOpenShare, &x0Mm, &y0Mm};
  for (size_t n = 0; n < sizeof constants / sizeof *constants; n++) *constants[n] = numbers[n];
  size_t cells = (size_t)nx * ny * layers, heatCells = (size_t)heatNx * heatNy * heatLayers;
  double *goneAtStart = take(file, cells, sizeof(double)), *heatAtStart = take(file, heatCells, sizeof(double));
  double *shareAtStart = take(file, heatCells, sizeof(double));
  temperatureK = take(file, entries, sizeof(double));
  conductivityOf = take(file, entries, sizeof(double));
  poses = take(file, (size_t)ticks * parts * POSE, sizeof(double));
  boxes = take(file, (size_t)ticks * BOX, sizeof(int32_t));
  fclose(file);
  gone = malloc(cells * sizeof(double));
  heatJ = malloc(heatCells * sizeof(double));
  metalShare = malloc(heatCells * sizeof(double));
  riseK = calloc(heatCells, sizeof(double));
  conductivity = calloc(heatCells, sizeof(double));
  openedTo = malloc((size_t)nx * ny);
  partialFrom = calloc((size_t)heatNy * heatLayers, sizeof(int));
  partialTo = calloc((size_t)heatNy * heatLayers, sizeof(int));
  int **const perLayer[] = {&shiftX, &shiftY, &bandEnd, &bandX, &bandY, &heatPlane};
  for (size_t n = 0; n < sizeof perLayer / sizeof *perLayer; n++) *perLayer[n] = calloc(layers, sizeof(int));
  for (int k = 0; k < layers; k++) heatPlane[k] = k / group * heatNx * heatNy;
  for (int repeat = 0; repeat < repeats; repeat++) {
    memcpy(gone, goneAtStart, cells * sizeof(double));
    memcpy(heatJ, heatAtStart, heatCells * sizeof(double));
    memcpy(metalShare, shareAtStart, heatCells * sizeof(double));
    memset(openedTo, 0, (size_t)nx * ny);
    double began = processorSeconds();
    run();
    printf("%.9f\n", processorSeconds() - began);
  }
  file = fopen(argv[2], "wb");
  if (!file || fwrite(gone, sizeof(double), cells, file) != cells || fwrite(heatJ, sizeof(double), heatCells, file) != heatCells ||
      fwrite(metalShare, sizeof(double), heatCells, file) != heatCells || fclose(file) != 0) {
    fprintf(stderr, "The fields cannot be written.\n");
    return 1;
  }
  return 0;
}
