/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "model/section.h"

#include <math.h>

/* A family: how its own figures are made from the spec, and its share. */
struct family {
	const char *name;
	double usual_fullness, least_fullness, most_fullness;
	enum fault (*make)(struct section *out, const struct section_spec *spec,
			   double half_width_mm, double height_mm, const char *setting,
			   struct fault_list *faults);
	double (*share)(const struct section *section, double v);
};

static const struct family *family_of(enum section_family family);

double section_superellipse(double v, double exponent)
{
	if (v <= 0.0)
		return 1.0;
	if (v >= 1.0)
		return 0.0;
	/* 1 - v^n without losing the small difference near the crest */
	return pow(-expm1(exponent * log(v)), 1.0 / exponent);
}

static enum fault fullness_of(double *out, const struct section_spec *spec, const char *setting,
			      struct fault_list *faults)
{
	const struct family *family = family_of(spec->family);

	*out = spec->fullness > 0.0 ? spec->fullness : family->usual_fullness;
	if (*out < family->least_fullness || *out > family->most_fullness)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "A %s section's fullness is %.4g; it can be %.4g to %.4g.",
				 family->name, *out, family->least_fullness, family->most_fullness);
	return FAULT_NONE;
}

/* p[0] = fullness */
static enum fault round_make(struct section *out, const struct section_spec *spec,
			     double half_width_mm, double height_mm, const char *setting,
			     struct fault_list *faults)
{
	(void)half_width_mm;
	(void)height_mm;
	return fullness_of(&out->p[0], spec, setting, faults);
}

static double round_share(const struct section *section, double v)
{
	return section_superellipse(v, section->p[0]);
}

/* p[0] = fullness, p[1] = share of the half-breadth that stays flat */
static enum fault flat_make(struct section *out, const struct section_spec *spec,
			    double half_width_mm, double height_mm, const char *setting,
			    struct fault_list *faults)
{
	(void)half_width_mm;
	(void)height_mm;
	out->p[1] = spec->flat_share > 0.0 ? spec->flat_share : 0.25;
	if (out->p[1] > 0.8)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "A D section's flat share is %.4g; it can be up to 0.8.",
				 out->p[1]);
	return fullness_of(&out->p[0], spec, setting, faults);
}

static double flat_share(const struct section *section, double v)
{
	double flat = section->p[1];

	return flat + (1.0 - flat) * section_superellipse(v, section->p[0]);
}

/* A ridge with straight flanks and a rounded apex: the hyperbola
 * 1 - v = (sqrt(b^2 + r^2) - r) / K, K = sqrt(1 + r^2) - r, whose radius at
 * the apex is r K w^2 / h for half-width w and height h. p[0] = r, p[1] = K. */
static enum fault ridge_make(struct section *out, const struct section_spec *spec,
			     double half_width_mm, double height_mm, const char *setting,
			     struct fault_list *faults)
{
	double radius_mm = spec->apex_radius_mm > 0.0 ? spec->apex_radius_mm : 6.0;
	double blunt = radius_mm * height_mm / (half_width_mm * half_width_mm);

	/* r K < 1/2 always (a parabola is the limit); 0.45 still looks a ridge. */
	if (blunt > 0.45)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "The ridge's apex radius is %.4g mm; a ridge %.4g mm wide and "
				 "%.4g mm high can have up to %.4g mm.",
				 radius_mm, 2.0 * half_width_mm, height_mm,
				 0.45 * half_width_mm * half_width_mm / height_mm);
	out->p[0] = blunt / sqrt(1.0 - 2.0 * blunt);
	out->p[1] = sqrt(1.0 + out->p[0] * out->p[0]) - out->p[0];
	return FAULT_NONE;
}

static double ridge_share(const struct section *section, double v)
{
	double r = section->p[0], down = (1.0 - v) * section->p[1];

	return sqrt(down * (down + 2.0 * r));
}

static enum fault table_make(struct section *out, const struct section_spec *spec,
			     double half_width_mm, double height_mm, const char *setting,
			     struct fault_list *faults)
{
	(void)half_width_mm;
	(void)height_mm;
	return measured_make(&out->measured, &spec->outline, setting, faults);
}

static double table_share(const struct section *section, double v)
{
	return measured_share(&section->measured, v);
}

static const struct family families[SECTION_FAMILY_COUNT] = {
	[SECTION_C] = { "C", 2.0, 2.0, 2.5, round_make, round_share },
	[SECTION_U] = { "U", 3.0, 2.4, 5.0, round_make, round_share },
	[SECTION_D] = { "D", 2.5, 2.0, 3.0, flat_make, flat_share },
	[SECTION_V] = { "V", 0.0, 0.0, 0.0, ridge_make, ridge_share },
	[SECTION_MEASURED] = { "measured", 0.0, 0.0, 0.0, table_make, table_share },
};

static const struct family *family_of(enum section_family family)
{
	return &families[family];
}

enum fault section_make(struct section *out, const struct section_spec *spec, double half_width_mm,
			double height_mm, const char *setting, struct fault_list *faults)
{
	*out = (struct section){ .family = spec->family };
	if ((int)spec->family < 0 || spec->family >= SECTION_FAMILY_COUNT)
		return fault_add(faults, FAULT_SETTING, NULL, 0, setting,
				 "There is no such section shape.");
	return family_of(spec->family)->make(out, spec, half_width_mm, height_mm, setting, faults);
}

double section_share(const struct section *section, double v)
{
	return family_of(section->family)->share(section, v);
}

const char *section_family_name(enum section_family family)
{
	if ((int)family < 0 || family >= SECTION_FAMILY_COUNT)
		return "?";
	return family_of(family)->name;
}
