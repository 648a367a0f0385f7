using System.Runtime.InteropServices;

namespace RepairShop.Documents.Text;

/// <summary>
/// A face cut down to the glyphs one paper uses. The PDF engine embeds TrueType whole, half a megabyte a face; cut first, a
/// paper is some tens of kilobytes. Uses the subsetter inside HarfBuzz's native library (hb-subset.h).
/// </summary>
internal sealed partial class FontSubset
{
    private readonly Dictionary<ushort, ushort> _newIds;

    private FontSubset(byte[] bytes, Dictionary<ushort, ushort> newIds) => (Bytes, _newIds) = (bytes, newIds);

    public byte[] Bytes { get; }

    public ushort NewId(ushort oldId) => _newIds[oldId];

    /// <summary>A native face kept as long as the process. Where the library can't prepare one it gives the face itself back.</summary>
    public static nint Prepare(HarfBuzzSharp.Face face) => Native.Preprocess(face.Handle);

    /// <param name="face">The whole face.</param>
    /// <param name="glyphs">Glyphs after shaping: ligatures and joined forms have no character of their own.</param>
    /// <param name="codePoints">Characters to keep in the character map, so that text can be copied out of the PDF.</param>
    public static FontSubset Cut(FontFace face, IEnumerable<ushort> glyphs, IEnumerable<int> codePoints)
    {
        var input = Native.InputCreate();
        nint plan = 0, subset = 0, blob = 0;
        try
        {
            var glyphSet = Native.InputGlyphSet(input);
            var wanted = glyphs.Distinct().Order().ToList();
            foreach (var glyph in wanted)
                Native.SetAdd(glyphSet, glyph);
            var unicodeSet = Native.InputUnicodeSet(input);
            foreach (var codePoint in codePoints.Distinct().Order())
                Native.SetAdd(unicodeSet, (uint)codePoint);
            Native.InputSetFlags(input, Native.NoHinting | Native.NotdefOutline);
            // Shaping is done; the layout tables would only pull unused alternates in.
            var dropped = Native.InputSet(input, Native.DropTableSet);
            foreach (var tag in (string[])["GSUB", "GPOS", "GDEF"])
                Native.SetAdd(dropped, (uint)(tag[0] << 24 | tag[1] << 16 | tag[2] << 8 | tag[3]));

            plan = Native.PlanCreate(face.Cuttable, input);
            if (plan == 0)
                throw new InvalidOperationException($"The font {face.Name} cannot be cut: no plan.");
            subset = Native.PlanExecute(plan);
            if (subset == 0)
                throw new InvalidOperationException($"The font {face.Name} cannot be cut.");
            var map = Native.PlanOldToNew(plan);
            var ids = wanted.ToDictionary(old => old, old => (ushort)Native.MapGet(map, old));
            blob = Native.FaceBlob(subset);
            var data = Native.BlobData(blob, out var length);
            var bytes = new byte[length];
            Marshal.Copy(data, bytes, 0, (int)length);
            return new FontSubset(bytes, ids);
        }
        finally
        {
            Native.BlobDestroy(blob);
            Native.FaceDestroy(subset);
            Native.PlanDestroy(plan);
            Native.InputDestroy(input);
            GC.KeepAlive(face);
        }
    }

    private static partial class Native
    {
        private const string Library = "libHarfBuzzSharp";
        public const uint NoHinting = 0x1;
        public const uint NotdefOutline = 0x40;
        public const int DropTableSet = 3;

        [LibraryImport(Library, EntryPoint = "hb_subset_input_create_or_fail")]
        public static partial nint InputCreate();

        [LibraryImport(Library, EntryPoint = "hb_subset_input_destroy")]
        public static partial void InputDestroy(nint input);

        [LibraryImport(Library, EntryPoint = "hb_subset_input_glyph_set")]
        public static partial nint InputGlyphSet(nint input);

        [LibraryImport(Library, EntryPoint = "hb_subset_input_unicode_set")]
        public static partial nint InputUnicodeSet(nint input);

        [LibraryImport(Library, EntryPoint = "hb_subset_input_set")]
        public static partial nint InputSet(nint input, int setType);

        [LibraryImport(Library, EntryPoint = "hb_subset_input_set_flags")]
        public static partial void InputSetFlags(nint input, uint flags);

        [LibraryImport(Library, EntryPoint = "hb_set_add")]
        public static partial void SetAdd(nint set, uint value);

        [LibraryImport(Library, EntryPoint = "hb_subset_preprocess")]
        public static partial nint Preprocess(nint face);

        [LibraryImport(Library, EntryPoint = "hb_subset_plan_create_or_fail")]
        public static partial nint PlanCreate(nint face, nint input);

        [LibraryImport(Library, EntryPoint = "hb_subset_plan_execute_or_fail")]
        public static partial nint PlanExecute(nint plan);

        [LibraryImport(Library, EntryPoint = "hb_subset_plan_old_to_new_glyph_mapping")]
        public static partial nint PlanOldToNew(nint plan);

        [LibraryImport(Library, EntryPoint = "hb_subset_plan_destroy")]
        public static partial void PlanDestroy(nint plan);

        [LibraryImport(Library, EntryPoint = "hb_map_get")]
        public static partial uint MapGet(nint map, uint key);

        [LibraryImport(Library, EntryPoint = "hb_face_reference_blob")]
        public static partial nint FaceBlob(nint face);

        [LibraryImport(Library, EntryPoint = "hb_face_destroy")]
        public static partial void FaceDestroy(nint face);

        [LibraryImport(Library, EntryPoint = "hb_blob_get_data")]
        public static partial nint BlobData(nint blob, out uint length);

        [LibraryImport(Library, EntryPoint = "hb_blob_destroy")]
        public static partial void BlobDestroy(nint blob);
    }
}
