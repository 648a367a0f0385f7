using System.Collections.Concurrent;
using System.Diagnostics.CodeAnalysis;
using System.Runtime.InteropServices;
using HarfBuzzSharp;

namespace RepairShop.Documents.Text;

/// <summary>One bundled face, loaded once and never changed: safe to shape with from many threads.</summary>
[SuppressMessage("Design", "CA1001", Justification = "Lives as long as the process.")]
internal sealed class FontFace
{
    private static readonly Feature[] NoLigatures = [new(Tag.Parse("liga"), 0), new(Tag.Parse("clig"), 0)];

    private readonly Font _font;
    private readonly Lazy<nint> _cuttable;
    private readonly ConcurrentDictionary<int, bool> _has = [];

    private FontFace(string name, byte[] bytes)
    {
        Name = name;
        Bytes = bytes;
        // Pinned for the life of the process: HarfBuzz reads these bytes in place.
        var pin = GCHandle.Alloc(bytes, GCHandleType.Pinned);
        using var blob = new Blob(pin.AddrOfPinnedObject(), bytes.Length, MemoryMode.ReadOnly);
        Face = new Face(blob, 0);
        Face.MakeImmutable();
        _font = new Font(Face);
        UnitsPerEm = Face.UnitsPerEm;
        _font.SetScale(UnitsPerEm, UnitsPerEm);
        _font.SetFunctionsOpenType();
        _cuttable = new Lazy<nint>(() => FontSubset.Prepare(Face));
    }

    public string Name { get; }

    public byte[] Bytes { get; }

    public Face Face { get; }

    /// <summary>The same face with what the subsetter would else work out anew for every paper; for nothing but cutting.</summary>
    public nint Cuttable => _cuttable.Value;

    public int UnitsPerEm { get; }

    /// <summary>Asked for every character of every paper: what the font said once is kept, at most one entry a character it was asked for.</summary>
    public bool Has(int codePoint) => _has.GetOrAdd(codePoint, static (asked, font) => font.TryGetNominalGlyph(asked, out var glyph) && glyph != 0, _font);

    public float MissingBoxAdvance => _font.GetHorizontalGlyphAdvance(0) / (float)UnitsPerEm;

    /// <summary>Joining and marks as the script needs them, but no "ffi" in one glyph: what is copied out of the PDF stays letters.</summary>
    public void Shape(HarfBuzzSharp.Buffer buffer) => _font.Shape(buffer, NoLigatures);

    public static FontFace Load(string resource)
    {
        using var stream = typeof(FontFace).Assembly.GetManifestResourceStream(resource)
            ?? throw new InvalidOperationException($"The font {resource} is not in this build.");
        var bytes = new byte[stream.Length];
        stream.ReadExactly(bytes);
        return new FontFace(resource, bytes);
    }
}
