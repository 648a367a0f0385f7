using QRCoder;

namespace RepairShop.Documents.Layout;

/// <summary>A QR code drawn as squares, one rectangle for each run of dark modules.</summary>
internal sealed class QrBlock : Block
{
    private readonly List<System.Collections.BitArray> _modules;
    private readonly float _size;
    private readonly uint _color;
    private readonly bool _right;

    /// <param name="text">What it says, in UTF-8.</param>
    /// <param name="size">Edge in points, without the quiet zone.</param>
    /// <param name="color">Ink.</param>
    /// <param name="right">At the right of its column.</param>
    public QrBlock(string text, float size, uint color, bool right = false)
    {
        using var generator = new QRCodeGenerator();
        // Level M is what the SEPA guideline asks for, and enough for a tag that gets oily.
        using var code = generator.CreateQrCode(text, QRCodeGenerator.ECCLevel.M, forceUtf8: true);
        _modules = [.. code.ModuleMatrix];
        (_size, _color, _right) = (size, color, right);
    }

    /// <summary>QRCoder's matrix has the four modules of quiet zone on each side.</summary>
    private int Modules => _modules.Count - 8;

    public int Version => (Modules - 17) / 4;

    public override float NaturalWidth => _size;

    public override float Height(float width) => _size;

    public override void Draw(Ink ink, float x, float y, float width)
    {
        var module = _size / Modules;
        x += _right ? width - _size : 0;
        for (var row = 0; row < Modules; row++)
            for (var column = 0; column < Modules; column++)
            {
                var start = column;
                while (column < Modules && _modules[row + 4][column + 4])
                    column++;
                if (column > start)
                    ink.Rect(x + start * module, y + row * module, (column - start) * module, module, _color);
            }
    }
}
