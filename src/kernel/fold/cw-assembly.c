/* cw-assembly.c: bodies, and the linkage of all pieces, for one stretch of time.
 *
 * Bonds merge panels into bodies by walking from the held panel and then from each panel not yet reached, in the order
 * of their numbers, so that the same design always gets the same bodies; a bond between two panels that are one body
 * already adds nothing. A part cut free of its piece (an error told by the room `panel`) keeps its place on the piece.
 * A piece is on the card when a chain of bonds joins it to the piece of the held panel.
 *
 * A bond that closes a loop was made where its two panels met at some moment, so where that is hangs on the fold lines
 * between them. So these are first laid true (cw-linkage-true.h) without relying on it; such bonds are then worked out
 * anew at the angles they were made at, in the order they were made, and the lines laid true once more: now the loop
 * closes at that moment as it did, and its lines are as true as those of a loop that is drawn.
 *
 * SPDX-License-Identifier: GPL-3.0-or-later
 */
#include "fold/cw-assembly.h"

#include "fold/cw-linkage-true.h"
#include "geometry/cw-sets.h"

/* Bonds that keep parts cut free of their piece where the piece has them. */
static void
add_fallen_parts (const CwPanelSet *set, GArray *bonds)
{
  for (guint i = 0; i < set->n_pieces; i++)
    {
      const CwPanelMap *map = &set->maps[i];
      g_autofree guint *parent = cw_sets_new (map->panels->len);

      for (guint k = 0; k < map->hinges->len; k++)
        {
          const CwHinge *hinge = &g_array_index (map->hinges, CwHinge, k);

          cw_sets_join (parent, hinge->left, hinge->right);
        }
      for (guint k = 1; k < map->panels->len; k++)
        if (parent[k] == k)
          {
            CwBond bond = { set->first_panel[i], set->first_panel[i] + k, cw_rigid_identity (), NULL };

            g_array_append_val (bonds, bond);
          }
    }
}

/* Walks over bonds from `seed`, giving every panel reached the body and its place in the seed's frame. */
static void
fill_body (CwAssembly *assembly, guint seed, const GArray *bonds, const guint *first, const guint *next, guint *queue)
{
  guint n = 0;

  assembly->body[seed] = assembly->n_bodies;
  assembly->in_body[seed] = cw_rigid_identity ();
  queue[n++] = seed;
  for (guint i = 0; i < n; i++)
    for (guint e = first[queue[i]]; e != G_MAXUINT; e = next[e])
      {
        const CwBond *bond = &g_array_index (bonds, CwBond, e / 2);
        gboolean forth = e % 2 == 0;
        guint to = forth ? bond->panel_b : bond->panel_a;
        CwRigid step = forth ? bond->b_in_a : cw_rigid_inverse (&bond->b_in_a);

        if (assembly->body[to] != G_MAXUINT)
          continue;
        assembly->body[to] = assembly->n_bodies;
        assembly->in_body[to] = cw_rigid_compose (&assembly->in_body[queue[i]], &step);
        queue[n++] = to;
      }
  assembly->n_bodies++;
}

static void
find_bodies (CwAssembly *assembly, guint held, const GArray *bonds)
{
  guint n = assembly->n_panels;
  g_autofree guint *first = g_new (guint, n + 1);
  g_autofree guint *next = g_new (guint, 2 * bonds->len + 1);
  g_autofree guint *queue = g_new (guint, n + 1);

  for (guint i = 0; i < n; i++)
    {
      first[i] = G_MAXUINT;
      assembly->body[i] = G_MAXUINT;
    }
  for (guint k = bonds->len; k-- > 0;)
    {
      const CwBond *bond = &g_array_index (bonds, CwBond, k);

      next[2 * k] = first[bond->panel_a];
      first[bond->panel_a] = 2 * k;
      next[2 * k + 1] = first[bond->panel_b];
      first[bond->panel_b] = 2 * k + 1;
    }

  if (held < n)
    fill_body (assembly, held, bonds, first, next, queue);
  for (guint i = 0; i < n; i++)
    if (assembly->body[i] == G_MAXUINT)
      fill_body (assembly, i, bonds, first, next, queue);
}

static void
find_present (CwAssembly *assembly, const CwPanelSet *set, guint held, const CwBond *bonds, guint n_bonds)
{
  guint held_piece;

  for (guint i = 0; i < set->n_pieces; i++)
    assembly->group[i] = i;
  for (guint k = 0; k < n_bonds; k++)
    {
      guint a, b;

      cw_panel_set_locate (set, bonds[k].panel_a, &a, NULL);
      cw_panel_set_locate (set, bonds[k].panel_b, &b, NULL);
      cw_sets_join (assembly->group, a, b);
    }
  for (guint i = 0; i < set->n_pieces; i++)
    assembly->group[i] = cw_sets_find (assembly->group, i);

  if (assembly->n_panels == 0)
    return;
  cw_panel_set_locate (set, held, &held_piece, NULL);
  for (guint i = 0; i < set->n_pieces; i++)
    for (guint k = set->first_panel[i]; k < set->first_panel[i + 1]; k++)
      assembly->present[k] = assembly->group[i] == assembly->group[held_piece];
}

/* The ends of a fold line in the flat paper. */
typedef struct
{
  CwVec3 p, q;
} Line;

/* `part`: n_panels numbers, or NULL for all the same. */
static CwJoint
make_joint (const CwAssembly *assembly, const CwPanelSet *set, const Line *lines, const guint *part, guint index)
{
  guint piece;
  const CwHinge *hinge = cw_panel_set_get_hinge (set, index, &piece);
  guint left = set->first_panel[piece] + hinge->left, right = set->first_panel[piece] + hinge->right;

  return (CwJoint){
    .a = assembly->body[left],
    .b = assembly->body[right],
    .in_a = assembly->in_body[left],
    .in_b = assembly->in_body[right],
    .p = lines[index].p,
    .q = lines[index].q,
    .way = hinge->fold == CW_FOLD_NONE   ? 0
           : hinge->fold == CW_FOLD_AWAY ? -1
                                         : 1,
    .part_a = part ? part[left] : 0,
    .part_b = part ? part[right] : 0,
  };
}

static guint
ground_of (const CwAssembly *assembly, guint held)
{
  return held < assembly->n_panels ? assembly->body[held] : 0;
}

/* The linkage of everything, with its lines laid true. Returns whether any was shifted for that. */
static gboolean
make_linkage (CwAssembly *assembly, const CwPanelSet *set, guint held, const guint *part, Line *lines)
{
  g_autofree CwJoint *joints = g_new0 (CwJoint, assembly->n_hinges + 1);
  guint ground = ground_of (assembly, held);
  double size = cw_panel_set_get_size (set);

  if (assembly->n_bodies == 0)
    return FALSE;
  for (guint i = 0; i < assembly->n_hinges; i++)
    joints[i] = make_joint (assembly, set, lines, part, i);
  assembly->linkage = cw_linkage_new (assembly->n_bodies, ground, assembly->n_hinges, joints, size);
  if (!cw_linkage_true_joints (assembly->linkage, joints))
    return FALSE;
  cw_linkage_unref (assembly->linkage);
  assembly->linkage = cw_linkage_new (assembly->n_bodies, ground, assembly->n_hinges, joints, size);
  for (guint i = 0; i < assembly->n_hinges; i++)
    lines[i] = (Line){ joints[i].p, joints[i].q };
  return TRUE;
}

/* The linkage of the card alone where something is not on it yet. Bodies are all on the card or all off it, because
 * whoever shares a body with a piece on the card is on the card. */
static void
make_card (CwAssembly *assembly, const CwPanelSet *set, guint held, const Line *lines)
{
  g_autofree CwJoint *joints = g_new0 (CwJoint, assembly->n_hinges + 1);
  g_autofree guint *card_body = g_new (guint, assembly->n_bodies + 1);

  if (assembly->linkage == NULL)
    return;
  for (guint i = 0; i < assembly->n_bodies; i++)
    card_body[i] = G_MAXUINT;
  for (guint i = 0; i < assembly->n_panels; i++)
    if (assembly->present[i] && card_body[assembly->body[i]] == G_MAXUINT)
      card_body[assembly->body[i]] = assembly->n_card_bodies++;

  assembly->card_hinges = g_new (guint, assembly->n_hinges + 1);
  for (guint i = 0; i < assembly->n_hinges; i++)
    {
      CwJoint joint = make_joint (assembly, set, lines, NULL, i);

      if (card_body[joint.a] == G_MAXUINT)
        continue;
      joint.a = card_body[joint.a];
      joint.b = card_body[joint.b];
      joints[assembly->n_card_joints] = joint;
      assembly->card_hinges[assembly->n_card_joints++] = i;
    }

  if (assembly->n_card_bodies == assembly->n_bodies)
    {
      assembly->card = cw_linkage_ref (assembly->linkage);
      g_clear_pointer (&assembly->card_hinges, g_free);
    }
  else
    assembly->card = cw_linkage_new (assembly->n_card_bodies, card_body[ground_of (assembly, held)],
                                     assembly->n_card_joints, joints, cw_panel_set_get_size (set));
}

static CwAssembly *
assembly_alloc (const CwPanelSet *set)
{
  CwAssembly *assembly = g_atomic_rc_box_new0 (CwAssembly);

  assembly->n_panels = cw_panel_set_n_panels (set);
  assembly->n_hinges = cw_panel_set_n_hinges (set);
  assembly->body = g_new0 (guint, assembly->n_panels + 1);
  assembly->in_body = g_new0 (CwRigid, assembly->n_panels + 1);
  assembly->group = g_new0 (guint, set->n_pieces + 1);
  assembly->present = g_new0 (gboolean, assembly->n_panels + 1);
  return assembly;
}

static CwAssembly *
join_panels (const CwPanelSet *set, guint held, const CwBond *bonds, guint n_bonds)
{
  CwAssembly *assembly = assembly_alloc (set);
  g_autoptr (GArray) all = g_array_new (FALSE, FALSE, sizeof (CwBond));

  if (n_bonds > 0)
    g_array_append_vals (all, bonds, n_bonds);
  add_fallen_parts (set, all);
  find_bodies (assembly, held, all);
  return assembly;
}

/* Keeps of the bonds those as having been made where their panels met that close a loop, for bonds before them and fold
 * lines join the two already: any other says itself where its panels lie. Returns whether there are such. */
static gboolean
find_met (const CwPanelSet *set, CwBond *bonds, guint n_bonds)
{
  g_autofree guint *parent = cw_sets_new (cw_panel_set_n_panels (set));
  gboolean any = FALSE;

  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      guint piece;
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, &piece);

      cw_sets_join (parent, set->first_panel[piece] + hinge->left, set->first_panel[piece] + hinge->right);
    }
  for (guint k = 0; k < n_bonds; k++)
    {
      if (cw_sets_find (parent, bonds[k].panel_a) != cw_sets_find (parent, bonds[k].panel_b))
        bonds[k].made_at = NULL;
      any |= bonds[k].made_at != NULL;
      cw_sets_join (parent, bonds[k].panel_a, bonds[k].panel_b);
    }
  return any;
}

/* Works out anew the bonds that close loops, in the order they were made: each as its two panels lie, joined by those
 * before it alone, at the angles it was made at. */
static void
settle_bonds (const CwPanelSet *set, guint held, CwBond *bonds, guint n_bonds, const Line *lines)
{
  g_autofree CwJoint *joints = g_new0 (CwJoint, cw_panel_set_n_hinges (set) + 1);

  for (guint k = 0; k < n_bonds; k++)
    {
      CwBond *bond = &bonds[k];
      g_autoptr (CwAssembly) part = NULL;
      g_autoptr (CwLinkageWork) work = NULL;
      g_autofree CwRigid *bodies = NULL;
      CwRigid a, b, back;

      if (bond->made_at == NULL)
        continue;
      part = join_panels (set, held, bonds, k);
      for (guint i = 0; i < part->n_hinges; i++)
        joints[i] = make_joint (part, set, lines, NULL, i);
      part->linkage
        = cw_linkage_new (part->n_bodies, ground_of (part, held), part->n_hinges, joints, cw_panel_set_get_size (set));
      work = cw_linkage_work_new (part->linkage);
      bodies = g_new (CwRigid, part->n_bodies);
      cw_linkage_place (part->linkage, work, bond->made_at, bodies);
      a = cw_rigid_compose (&bodies[part->body[bond->panel_a]], &part->in_body[bond->panel_a]);
      b = cw_rigid_compose (&bodies[part->body[bond->panel_b]], &part->in_body[bond->panel_b]);
      back = cw_rigid_inverse (&a);
      bond->b_in_a = cw_rigid_compose (&back, &b);
    }
}

/* Parts of bodies: panels held together otherwise than by having met. */
static guint *
find_parts (const CwPanelSet *set, const CwBond *bonds, guint n_bonds)
{
  guint n = cw_panel_set_n_panels (set);
  guint *part = cw_sets_new (n);

  for (guint k = 0; k < n_bonds; k++)
    if (bonds[k].made_at == NULL)
      cw_sets_join (part, bonds[k].panel_a, bonds[k].panel_b);
  for (guint i = 0; i < n; i++)
    part[i] = cw_sets_find (part, i);
  return part;
}

/**
 * cw_assembly_new:
 * @set: panels and fold lines of a design
 * @held: the panel that stays still, or G_MAXUINT when there is no panel at all; its body's frame is its own
 * @bonds: (array length=n_bonds): what is held together, in the order it was joined
 * @n_bonds: how many
 *
 * Returns: (transfer full): the bodies and linkages of all pieces with these bonds
 */
CwAssembly *
cw_assembly_new (const CwPanelSet *set, guint held, const CwBond *bonds, guint n_bonds)
{
  CwAssembly *assembly;
  g_autofree CwBond *own = NULL;
  g_autofree Line *lines = NULL;

  g_return_val_if_fail (set != NULL && (bonds != NULL || n_bonds == 0), NULL);
  g_return_val_if_fail (held < cw_panel_set_n_panels (set) || cw_panel_set_n_panels (set) == 0, NULL);

  own = g_new (CwBond, n_bonds + 1);
  for (guint k = 0; k < n_bonds; k++)
    own[k] = bonds[k];
  lines = g_new (Line, cw_panel_set_n_hinges (set) + 1);
  for (guint i = 0; i < cw_panel_set_n_hinges (set); i++)
    {
      const CwHinge *hinge = cw_panel_set_get_hinge (set, i, NULL);

      lines[i] = (Line){ hinge->axis[0], hinge->axis[1] };
    }
  if (find_met (set, own, n_bonds))
    {
      g_autofree guint *part = find_parts (set, own, n_bonds);
      g_autoptr (CwAssembly) rough = join_panels (set, held, own, n_bonds);

      if (make_linkage (rough, set, held, part, lines))
        settle_bonds (set, held, own, n_bonds, lines);
    }
  assembly = join_panels (set, held, own, n_bonds);
  find_present (assembly, set, held, own, n_bonds);
  make_linkage (assembly, set, held, NULL, lines);
  make_card (assembly, set, held, lines);
  return assembly;
}

/**
 * cw_assembly_ref:
 *
 * Returns: (transfer full): @assembly
 */
CwAssembly *
cw_assembly_ref (CwAssembly *assembly)
{
  g_return_val_if_fail (assembly != NULL, NULL);
  return g_atomic_rc_box_acquire (assembly);
}

static void
assembly_clear (gpointer data)
{
  CwAssembly *assembly = data;

  g_free (assembly->body);
  g_free (assembly->in_body);
  g_free (assembly->group);
  g_free (assembly->present);
  g_free (assembly->card_hinges);
  g_clear_pointer (&assembly->linkage, cw_linkage_unref);
  g_clear_pointer (&assembly->card, cw_linkage_unref);
}

/**
 * cw_assembly_unref:
 * @assembly: (transfer full): an assembly
 */
void
cw_assembly_unref (CwAssembly *assembly)
{
  g_return_if_fail (assembly != NULL);
  g_atomic_rc_box_release_full (assembly, assembly_clear);
}

/**
 * cw_panel_set_get_size:
 *
 * Returns: the longest side of any piece's bounding box in ticks, at least one: the length that tolerances given as a
 * share of the design's size are measured by
 */
double
cw_panel_set_get_size (const CwPanelSet *set)
{
  double size = 1;

  g_return_val_if_fail (set != NULL, 1);

  for (guint i = 0; i < set->n_pieces; i++)
    {
      const CwPanelMap *map = &set->maps[i];

      size = MAX (size, (double) map->box_max.x - map->box_min.x);
      size = MAX (size, (double) map->box_max.y - map->box_min.y);
    }
  return size;
}

/**
 * cw_step_get_placement:
 * @step: a `stick` step
 *
 * The model's rule: not mirrored, (u, v) of the piece lands at `at` + (u, v), turned; mirrored (equal faces meet) it is
 * turned over like a page and lands at `at` + (-u, v), turned. `turn` is clockwise as seen by someone looking at the
 * host's face, so it runs the other way in front coordinates when that face is the back. Turning over is a half turn
 * about the upright, so this is a rigid placement in space either way.
 *
 * Returns: the piece's flat coordinates in the host's, ticks
 */
CwRigid
cw_step_get_placement (const CwStep *step)
{
  CwRigid place, over = { { { -1, 0, 0 }, { 0, 1, 0 }, { 0, 0, -1 } }, { 0, 0, 0 } };
  CwVec3 at;
  double turn;

  g_return_val_if_fail (step != NULL, cw_rigid_identity ());

  at = cw_vec3 (step->at.x.ticks, step->at.y.ticks, 0);
  turn = isfinite (step->turn) ? fmod (step->turn, 360) : 0;
  /* Clockwise with y down is the right-hand turn about +z, away from the viewer of the front. */
  if (step->on_face == CW_FACE_BACK)
    turn = -turn;
  place = cw_rigid_about_axis (cw_vec3 (0, 0, 0), cw_vec3 (0, 0, 1), turn * G_PI / 180);
  if (step->on_face == step->facing)
    place = cw_rigid_compose (&place, &over);
  place.t = at;
  return place;
}
