/*
 * The closed-form kernels of the bench in C, the yardstick for their TypeScript: same equations, same order, same checks
 * left out; powers stay pow, which costs C no more than the exp and log of a shared logarithm. Reads nothing; inputs
 * come from the same generator as in kernels.ts.
 *
 *     gcc -O3 -std=c11 -o kernels kernels.c -lm && ./kernels 200000
 *
 * Prints per kernel: name, nanoseconds per call (best of seven rounds), sum of the results.
 */
#define _POSIX_C_SOURCE 200809L
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

#define PI 3.14159265358979323846
#define E 2.71828182845904523536
static const double ETA = 1.25663706212e-6 * 299792458.0;

typedef struct { double width, thickness, height, gap, er, below, above; } Shape;

static uint32_t state = 20260101u;
static double random_unit(void) {
  state = state * 1664525u + 1013904223u;
  return state / 4294967296.0;
}

static double air_impedance(double u) {
  double F = 6 + (2 * PI - 6) * exp(-pow(30.666 / u, 0.7528));
  return ETA / (2 * PI) * log(F / u + sqrt(1 + (2 / u) * (2 / u)));
}

static double thin_permittivity(double u, double er) {
  double u2 = u * u, u4 = u2 * u2;
  double a = 1 + log((u4 + (u / 52) * (u / 52)) / (u4 + 0.432)) / 49 + log1p((u / 18.1) * (u / 18.1) * (u / 18.1)) / 18.7;
  double b = 0.564 * pow((er - 0.9) / (er + 3), 0.053);
  return (er + 1) / 2 + (er - 1) / 2 * pow(1 + 10 / u, -a * b);
}

static double air_widening(double u, double T) {
  if (T == 0) return 0;
  double th = tanh(sqrt(6.517 * u));
  return T / PI * log1p(4 * E * th * th / T);
}

static double dielectric_share(double er) { return 0.5 * (1 + 1 / cosh(sqrt(er - 1))); }

static double microstrip(const Shape *s) {
  double u = s->width / s->height, in_air = air_widening(u, s->thickness / s->height);
  double ur = u + dielectric_share(s->er) * in_air, ee = thin_permittivity(ur, s->er), z = air_impedance(ur);
  double r = air_impedance(u + in_air) / z;
  return z / sqrt(ee) + ee * r * r;
}

static double wheeler_widening(double w, double t, double b) {
  if (t == 0) return 0;
  double x = t / b, m = 2 / (1 + 2.0 / 3 * x / (1 - x));
  double inside = (x / (2 - x)) * (x / (2 - x)) + pow(0.0796 * x / (w / b + 1.1 * x), m);
  return (b - t) * x * (1 - 0.5 * log(inside)) / (PI * (1 - x));
}

static double wheeler(double w, double t, double b, double er) {
  double p = (b - t) / (w + wheeler_widening(w, t, b)), q = 8 / PI * p;
  return ETA / (4 * PI * sqrt(er)) * log1p(4 / PI * p * (q + sqrt(q * q + 6.27)));
}

static double stripline(const Shape *s) { return wheeler(s->width, s->thickness, s->below + s->thickness + s->above, s->er); }

static double offset(const Shape *s) {
  double w = s->width, t = s->thickness, b = s->below + t + s->above, near = s->below < s->above ? s->below : s->above;
  double wire = b * sin(PI * (near + t / 2) / b), plate = t + 4 * s->below * s->above / (s->below + s->above);
  double G = pow((w + t) / (1.46 * wire), 4.2), S = G / (1 + G);
  return wheeler(w, t, wire * (1 - S) + plate * S, s->er);
}

static double fifth(double x) { return x * x * x * x * x; }
static double saturating(double g, double knee) { return log(fifth(g * g) / (1 + fifth(g / knee * (g / knee)))); }
static double gap_factor(double g) { return 1 + 0.7519 * g + 0.189 * pow(g, 2.31); }

static double even_coupling(double u, double g, double Q2) {
  double Q1 = 0.8695 * pow(u, 0.194);
  double Q3 = 0.1975 + pow(16.6 + 8.4 / g * fifth(8.4 / g), -0.387) + saturating(g, 3.4) / 241;
  double decay = exp(-g), power = pow(u, Q3);
  return 2 * Q1 / Q2 / (decay * power + (2 - decay) / power);
}

static double odd_excess(double u, double g, double Q2) {
  double Q5 = 1.794 + 1.14 * log(1 + 0.638 / (g + 0.517 * pow(g, 2.43)));
  double Q6 = 0.2305 + saturating(g, 5.8) / 281.3 + log(1 + 0.598 * pow(g, 1.154)) / 5.1;
  double Q7 = (10 + 190 * g * g) / (1 + 82.3 * g * g * g);
  double Q8 = exp(-6.5 - 0.95 * log(g) - fifth(g / 0.15));
  double Q9 = log(Q7) * (Q8 + 1 / 16.5);
  return Q5 * exp(log(u) * Q6 * pow(u, -Q9)) / Q2;
}

static double mode(double air, double coupling, double ee) {
  return air / (sqrt(ee) * (1 - air / ETA * coupling));
}

static double odd_permittivity(double u, double g, double er) {
  double ee0 = thin_permittivity(u, er), mean = (er + 1) / 2;
  double ao = 0.7287 * (ee0 - mean) * (1 - exp(-0.179 * u)), bo = 0.747 * er / (0.15 + er);
  double co = bo - (bo - 0.207) * exp(-0.414 * u), d = 0.593 + 0.694 * exp(-0.562 * u);
  return (mean + ao - ee0) * exp(-co * pow(g, d)) + ee0;
}

static double microstrip_pair(const Shape *s) {
  double u = s->width / s->height, g = s->gap / s->height, er = s->er;
  double v = u * (20 + g * g) / (10 + g * g) + g * exp(-g);
  double ee = thin_permittivity(v, er), eo = odd_permittivity(u, g, er);
  double air = air_impedance(u), Q2 = gap_factor(g), Q4 = even_coupling(u, g, Q2);
  return mode(air, Q4, ee) + mode(air, Q4 - odd_excess(u, g, Q2), eo) + ee + eo;
}

static double agm(double a, double b) {
  while (fabs(a - b) > 1e-8 * a) {
    double mean = (a + b) / 2;
    b = sqrt(a) * sqrt(b);
    a = mean;
  }
  return (a + b) / 2;
}
static double ratio(double k, double kp) { return agm(1, k) / agm(1, kp); }

static double exact(double w, double b) {
  double x = PI * w / (2 * b);
  return ETA / 4 * ratio(1 / cosh(x), tanh(x));
}

static void exact_pair(double w, double s, double b, double *even, double *odd) {
  double x = PI * w / (2 * b), y = PI * (w + s) / (2 * b), tx = tanh(x), ty = tanh(y);
  double cx = 1 / cosh(x), cy = tx / cosh(y);
  *even = ETA / 4 * ratio(sqrt(cx * cx + cy * cy), tx * ty);
  *odd = ETA / 4 * ratio(sqrt(sinh(y - x) * sinh(y + x)) / (cosh(x) * cosh(y) * ty), tx / ty);
}

static double corner(double x) {
  double A = 1 / (1 - x), inner = x == 0 ? 0 : (A - 1) * log(A * A - 1);
  return (2 * A * log(A + 1) - inner) / PI;
}

static double stripline_pair(const Shape *s) {
  double w = s->width, t = s->thickness, b = s->below + t + s->above, scale = 1 / sqrt(s->er), even, odd;
  double thick = 1 / wheeler(w, t, b, 1), thin = 1 / exact(w, b);
  exact_pair(w, s->gap, b, &even, &odd);
  double f = corner(t / b), f0 = corner(0), growth = f / f0;
  double corners = 2 * (f - f0) / ETA, walls = 2 * t / (ETA * s->gap);
  double far_mode = scale / (thick + growth * (1 / odd - thin)), near_mode = scale / (1 / odd + thick - thin - corners + walls);
  return scale / (thick - growth * (thin - 1 / even)) + (s->gap >= 5 * t ? far_mode : near_mode);
}

static double now(void) {
  struct timespec t;
  clock_gettime(CLOCK_MONOTONIC, &t);
  return t.tv_sec * 1e9 + t.tv_nsec;
}

static void measure(const char *name, double (*kernel)(const Shape *), const Shape *shapes, int count) {
  double best = INFINITY, sum = 0;
  for (int round = 0; round < 7; round++) {
    double start = now();
    sum = 0;
    for (int i = 0; i < count; i++) sum += kernel(&shapes[i]);
    double took = (now() - start) / count;
    if (took < best) best = took;
  }
  printf("%s,%.3f,%.15g\n", name, best, sum);
}

int main(int argc, char **argv) {
  int count = argc > 1 ? atoi(argv[1]) : 100000;
  Shape *shapes = malloc(sizeof(Shape) * count);
  for (int i = 0; i < count; i++) {
    Shape *s = &shapes[i];
    s->width = 60e-6 + 190e-6 * random_unit();
    s->thickness = 12e-6 + 38e-6 * random_unit();
    s->height = 60e-6 + 190e-6 * random_unit();
    s->gap = 60e-6 + 240e-6 * random_unit();
    s->er = 3 + 1.5 * random_unit();
    s->below = 60e-6 + 190e-6 * random_unit();
    s->above = 60e-6 + 190e-6 * random_unit();
  }
  measure("microstrip", microstrip, shapes, count);
  measure("stripline", stripline, shapes, count);
  measure("offset", offset, shapes, count);
  measure("microstrip-pair", microstrip_pair, shapes, count);
  measure("stripline-pair", stripline_pair, shapes, count);
  free(shapes);
  return 0;
}
