using RepairShop.Domain.Results;
using RepairShop.Measurement.ShutterTests;

namespace RepairShop.Domain.Cameras;

/// <summary>What a camera's entry must hold, and how its dial is read.</summary>
public static class CameraRules
{
    public static Result Check(Camera camera) =>
        camera.Maker.Length == 0 && camera.Model.Length == 0 ? new CameraUnnamed() : Result.Done;

    /// <summary>The marks of a dial as typed or taken from a series, in canonical text; empty text is an unknown dial.</summary>
    public static Result<string[]> Dial(string text)
    {
        if (text.Trim().Length == 0)
            return Array.Empty<string>();
        var (marks, refusal) = MarkedSpeed.ParseDial(text);
        if (refusal is not null)
            return new MarkedSpeedUnreadable(refusal.Text);
        return marks
            .OrderBy(mark => mark.LiteralSeconds is null)
            .ThenByDescending(mark => mark.LiteralSeconds)
            .ThenByDescending(mark => mark.Text, StringComparer.Ordinal)
            .Select(mark => mark.Text)
            .ToArray();
    }

    /// <summary>"Orrevale Pelter IIb": maker, model and variant in one line.</summary>
    public static string NameOf(string maker, string model, string variant) =>
        string.Join(' ', new[] { maker, model, variant }.Where(part => part.Length > 0));
}
