/* A yardstick for sim/replay: the same arithmetic, told plainly in scalar C.
 *
 * Thirty years, eight zones of eight strips, six strategies that differ in
 * kind, day records and doses worked out inside the timed part, sums kept by
 * month and no ledger: what BenchmarkSix does. Stress is graded as the program
 * grades it, by the relative ET of the last seven days of the driest quarter and
 * of the zone against two marks; plants are active all year, as in the program's
 * run. Zones of the same make; weather
 * of the same make from another generator. Printed are the best and the median
 * of 40 rounds. This builds it, and times it in turn with the program's own
 * loop:
 *
 *   go test ./sim/replay -run '^$' -bench Yardstick
 */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <time.h>

enum { DAYS = 10957, SPIN = 365, ZONES = 8, STRIPS = 8, STRATEGIES = 6, QUARTER = STRIPS / 4, MONTHS = 361 };

static const double TOLERANCE = 0.8, BROWNING = 0.6;

typedef struct { double taw, p, pr, loss, du, intake, asa, cn, k[12], minutes; } Zone;
typedef struct { double etc, raw, slope, rain, week; } Day; /* week: ETc of the last seven days */
typedef struct { double gross, spray, runoff, percirr, percrain, eta, lost; int water, pastraw, events, streak, stress, stresszone, brown, brownzone; } Sums;

static double rain[DAYS], eto[DAYS], tmin_[DAYS];
static uint8_t month[DAYS], dom[DAYS], wday[DAYS];
static uint16_t span[DAYS];
static Day days[ZONES][DAYS];
static Sums sums[MONTHS];
static double scale[SPIN + DAYS];
static uint8_t held[SPIN + DAYS], on[SPIN + DAYS];

static uint64_t seed = 88172645463325252ull;
static double uniform(void) { seed ^= seed << 13; seed ^= seed >> 7; seed ^= seed << 17; return (seed >> 11) * (1.0 / 9007199254740992.0); }
static double normal(void) { double s = 0; for (int i = 0; i < 12; i++) s += uniform(); return s - 6; }

static void invent(void) {
	static const int len[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
	int y = 1990, m = 0, d = 1, w = 1, s = 0;
	for (int i = 0; i < DAYS; i++) {
		double season = cos(2 * M_PI * (i % 365 - 200) / 365.0);
		eto[i] = fmax(0.2, 3.5 + 2.8 * season + 0.8 * normal());
		tmin_[i] = 8 + 10 * season + 3 * normal();
		rain[i] = uniform() < 0.22 - 0.08 * season ? -9 * log(1 - uniform()) : 0;
		month[i] = m; dom[i] = d; wday[i] = w; span[i] = s;
		if (++w == 7) w = 0;
		if (++d > len[m] + (m == 1 && y % 4 == 0)) { d = 1; s++; if (++m == 12) { m = 0; y++; } }
	}
}

static void forcing(Day *out, const Zone *z) {
	double s = 25400 / z->cn - 254;
	for (int i = 0; i < DAYS; i++) {
		double etc = z->k[month[i]] * eto[i], p = fmin(fmax(z->p + 0.04 * (5 - etc), 0.1), 0.8), in = 0;
		if (rain[i] > 0 && rain[i] >= 0.2 * eto[i]) {
			double over = rain[i] - 0.2 * s;
			in = rain[i] - (over > 0 ? over * over / (over + s) : 0);
		}
		out[i] = (Day){etc, p * z->taw, 1 / ((1 - p) * z->taw), in, 0};
		for (int k = i < 6 ? 0 : i - 6; k <= i; k++) out[i].week += out[k].etc;
	}
}

/* One start: depth into each strip; returns the mean runoff. */
static double dose(const Zone *z, const double *share, double minutes, double cycle, double soak, double *in) {
	double net = z->pr * (1 - z->loss), total = 0;
	for (int i = 0; i < STRIPS; i++) {
		double rate = net * share[i], off = 0;
		if (rate > z->intake) {
			double grow = (rate - z->intake) / 60, fall = z->intake * soak / 60, store = 0;
			for (double left = minutes; left > 0; left -= cycle) {
				store += grow * (left < cycle ? left : cycle);
				if (store > z->asa) { off += store - z->asa; store = z->asa; }
				store -= fall;
				if (store < 0) store = 0;
			}
		}
		in[i] += rate * minutes / 60 - off;
		total += off;
	}
	return total / STRIPS;
}

static void replay(const Zone *z, const Day *zd, int strategy) {
	double share[STRIPS], dr[STRIPS] = {0}, in[STRIPS], believed = 0, last = -1, lastin[STRIPS], lastoff = 0;
	double quarter[7] = {0}, zone[7] = {0}; /* what the draw of each of seven days fell short */
	double c = (1 - z->du) / 0.75, perMM = 60 / (0.4 + 0.6 * z->du) / (z->pr * (1 - z->loss));
	int streak = 0, calm = 7;
	for (int i = 0; i < STRIPS; i++) share[i] = 1 - c + c * (2 * i + 1) / STRIPS;
	for (int t = 0; t < SPIN + DAYS; t++) {
		int k = t < SPIN ? t : t - SPIN;
		const Day *d = &zd[k];
		Sums *s = &sums[t < SPIN ? MONTHS - 1 : span[k]];
		double minutes = 0;
		int starts = strategy == 1 ? 2 : 1;
		if (strategy == 4) {
			if (believed >= 0.5 * z->taw) { minutes = believed * perMM; believed = 0; }
		} else if (on[t] && !held[t]) {
			minutes = z->minutes * scale[t];
			if (strategy == 5) {
				double reading = 0;
				for (int i = 0; i < STRIPS; i++) reading += dr[i] / STRIPS;
				if (reading < 0.35 * z->taw) minutes = 0;
			}
		}
		if (minutes > 0) {
			if (minutes != last) {
				for (int i = 0; i < STRIPS; i++) lastin[i] = 0;
				lastoff = 0;
				for (int n = 0; n < starts; n++) lastoff += dose(z, share, minutes, 8, 30, lastin);
				last = minutes;
			}
			for (int i = 0; i < STRIPS; i++) in[i] = lastin[i];
			double gross = z->pr * minutes * starts / 60;
			s->gross += gross; s->spray += gross * z->loss; s->runoff += lastoff; s->water++;
			s->events += lastoff >= 0.25;
			for (int i = 0; i < STRIPS; i++) {
				dr[i] -= in[i];
				if (dr[i] < 0) { s->percirr -= dr[i]; dr[i] = 0; }
			}
		}
		if (d->rain > 0)
			for (int i = 0; i < STRIPS; i++) {
				dr[i] -= d->rain;
				if (dr[i] < 0) { s->percrain -= dr[i]; dr[i] = 0; }
			}
		double low = 0;
		for (int i = 0; i < QUARTER; i++) low += dr[i];
		s->pastraw += low / QUARTER - d->raw > 1e-9;
		double qshort = 0, zshort = 0;
		for (int i = 0; i < STRIPS; i++) {
			double left = z->taw - dr[i], take = d->etc;
			if (dr[i] > d->raw) { double ks = left * d->slope; s->lost += 1 - ks; take *= ks; }
			if (take > left) take = left;
			s->eta += take;
			dr[i] += take;
			if (take < d->etc) { zshort += d->etc - take; if (i < QUARTER) qshort = zshort; }
		}
		quarter[t % 7] = qshort / QUARTER;
		zone[t % 7] = zshort / STRIPS;
		calm = zshort > 0 ? 0 : calm + 1;
		double wq = 0, wz = 0;
		if (calm < 7) /* else the week has no shortfall */
			for (int i = 0; i < 7; i++) { wq += quarter[i]; wz += zone[i]; }
		if (wq > 0 && d->week >= 1) {
			if (wq - (1 - TOLERANCE) * d->week > 1e-9) { s->stress++; if (++streak > s->streak) s->streak = streak; } else streak = 0;
			s->stresszone += wz - (1 - TOLERANCE) * d->week > 1e-9;
			s->brown += wq - (1 - BROWNING) * d->week > 1e-9;
			s->brownzone += wz - (1 - BROWNING) * d->week > 1e-9;
		} else streak = 0;
		if (strategy == 4) {
			believed -= d->rain;
			if (believed < 0) believed = 0;
			double left = z->taw - believed, take = d->etc;
			if (believed > d->raw) take *= left * d->slope;
			believed += take < left ? take : left;
		}
	}
}

/* What a strategy decides without looking at soil. */
static void plan(int strategy) {
	static const double share[12] = {0, 0, .4, .6, .8, 1, 1, .95, .75, .5, .25, 0};
	int wet = 0;
	for (int t = 0; t < SPIN + DAYS; t++) {
		int k = t < SPIN ? t : t - SPIN, before = t == SPIN ? SPIN - 1 : k - 1;
		on[t] = strategy == 1 ? dom[k] % 2 : strategy == 5 ? k % 2 == 0 : wday[k] == 1 || wday[k] == 3 || wday[k] == 5;
		held[t] = 0;
		scale[t] = 1;
		if (strategy == 2) { scale[t] = share[month[k]]; held[t] = t > 0 && tmin_[before] < 2; }
		if (strategy == 3) {
			double sum = 0;
			int n = t < 7 ? t : 7;
			for (int b = 1; b <= n; b++) { int j = t - b < SPIN ? t - b : t - b - SPIN; sum += eto[j] - rain[j]; }
			if (n) scale[t] = fmin(fmax(sum / n / 6, 0), 1.5);
			held[t] = wet > 0;
			if (wet) wet--;
			if (rain[k] >= 6) wet = 2;
		}
	}
}

static int ascending(const void *a, const void *b) {
	double x = *(const double *)a, y = *(const double *)b;
	return (x > y) - (x < y);
}

int main(void) {
	Zone zones[ZONES];
	invent();
	for (int i = 0; i < ZONES; i++) {
		Zone z = {20 + 9 * i, 0.4 + 0.02 * i, 12 + 4 * i, 0.02, 0.45 + 0.05 * i, 4 + 3 * i, 4, 62 + 3 * i, {0}, 12 + 3 * i};
		for (int m = 0; m < 12; m++) z.k[m] = 0.5 + 0.03 * i + 0.2 * sin(m / 4.0);
		zones[i] = z;
	}
	enum { ROUNDS = 40 };
	double took[ROUNDS], check = 0, per = (double)DAYS * ZONES * STRATEGIES;
	for (int round = 0; round < ROUNDS; round++) {
		struct timespec a, b;
		clock_gettime(CLOCK_MONOTONIC, &a);
		for (int z = 0; z < ZONES; z++) forcing(days[z], &zones[z]);
		for (int s = 0; s < STRATEGIES; s++) {
			plan(s);
			for (int z = 0; z < ZONES; z++) replay(&zones[z], days[z], s);
		}
		clock_gettime(CLOCK_MONOTONIC, &b);
		took[round] = ((b.tv_sec - a.tv_sec) * 1e9 + (b.tv_nsec - a.tv_nsec)) / per;
		check += sums[7].eta + sums[7].stress + sums[7].brownzone;
	}
	qsort(took, ROUNDS, sizeof took[0], ascending);
	printf("best %.2f median %.2f ns/zone-day (%g)\n", took[0], took[ROUNDS / 2], check);
	return 0;
}
