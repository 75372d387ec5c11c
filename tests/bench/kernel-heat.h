/* Part of kernel.c: heat-field of sim-core/physics, statement for statement. */

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

static int readWhole(int from, int to) {
  int last = entries - 2, cell = from;
  for (; cell < to && metalShare[cell] == 1; cell++) {
    double place = heatJ[cell] * cellPerJ;
    int entry = place < last ? (place > 0 ? (int)place : 0) : last;
    double base = temperatureK[entry];
    riseK[cell] = base + (place - entry) * (temperatureK[entry + 1] - base);
    conductivity[cell] = conductivityOf[entry];
  }
  return cell;
}

static void readRow(int row, int left, int right) {
  int start = row * heatNx, from = readWhole(start + left, start + right) - start, to = right;
  if (from == right) {
    partialFrom[row] = heatNx;
    partialTo[row] = 0;
    return;
  }
  while (metalShare[start + to - 1] == 1) to--;
  partialFrom[row] = from;
  partialTo[row] = to;
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
