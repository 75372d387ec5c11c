/*
 * The hot kernel of the core once more in C, for the benchmark only: one tick's jet and conduction, statement for statement as
 * in sim-core/physics (align-layers, trace-rays, surroundings, jet, melt-rays, heat-walls, heat-field). Only + - * / and sqrt
 * are used and products are not contracted, so that both must end in the same bits. What only a blind hole needs is left out:
 * in this case the jet always has a way down.
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
static double cellMm, layerMm, heatCellMm, heatLayerMm, jetRadiusMm, jetSpread, jetShape, jetFlare, openSpread;
static double contactDepthMm, wallLossMm, perJ, meltingK, thrownJPerMm3, powerW, stepS, lateral, through, cellPerJ, firstOpenShare, x0Mm, y0Mm;
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
static double openShare, meanDepthMm, wallJ, floorSum;

#include "kernel-jet.h"
#include "kernel-heat.h"

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
                               &openSpread, &contactDepthMm, &wallLossMm, &perJ, &meltingK, &thrownJPerMm3,
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
