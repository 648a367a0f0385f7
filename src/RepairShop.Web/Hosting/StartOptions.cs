using RepairShop.Domain.Results;

namespace RepairShop.Web.Hosting;

/// <summary>
/// What the command line says: <c>--data DIR --port N --listen ADDR --demo</c>, or a command:
/// <c>reset-password EMAIL</c>, <c>backup DIR</c>, <c>restore DIR</c>.
/// Everything else is left to the usual configuration (environment, --Key=value).
/// </summary>
public sealed record StartOptions
{
    public const int DefaultPort = 5080;

    public const string DefaultListen = "localhost";

    public required string DataDirectory { get; init; }

    public required int Port { get; init; }

    public required string Listen { get; init; }

    public required bool Demo { get; init; }

    /// <summary>Set for <c>reset-password EMAIL</c>.</summary>
    public string? ResetPasswordFor { get; init; }

    /// <summary>Set for <c>backup DIR</c>.</summary>
    public string? BackupTo { get; init; }

    /// <summary>Set for <c>restore DIR</c>.</summary>
    public string? RestoreFrom { get; init; }

    /// <summary>True for a command, which may work beside the running program.</summary>
    public bool IsCommand => ResetPasswordFor is not null || BackupTo is not null || RestoreFrom is not null;

    /// <summary>What goes on to the configuration.</summary>
    public required string[] Arguments { get; init; }

    public string Address => Listen.Contains(':', StringComparison.Ordinal) ? $"http://[{Listen}]:{Port}" : $"http://{Listen}:{Port}";

    public static Result<StartOptions> Read(IReadOnlyList<string> args)
    {
        var rest = new List<string>();
        string? data = null, email = null, backup = null, restore = null, listen = DefaultListen;
        var port = DefaultPort;
        var demo = false;
        for (var i = 0; i < args.Count; i++)
        {
            var (name, value) = Split(args[i]);
            switch (name)
            {
                case "--demo" when value is null or "true":
                    demo = true;
                    break;
                case "--data" or "--port" or "--listen" or "reset-password" or "backup" or "restore":
                    value ??= i + 1 < args.Count ? args[++i] : null;
                    if (string.IsNullOrWhiteSpace(value))
                        return new StartOptionMissing(name);
                    if (name == "--data")
                        data = value;
                    else if (name == "--listen")
                        listen = value;
                    else if (name == "reset-password")
                        email = value;
                    else if (name == "backup")
                        backup = Path.GetFullPath(value);
                    else if (name == "restore")
                        restore = Path.GetFullPath(value);
                    else if (!int.TryParse(value, out port) || port is < 1 or > 65535)
                        return new PortUnusable(value);
                    break;
                default:
                    rest.Add(args[i]);
                    break;
            }
        }

        return new StartOptions
        {
            DataDirectory = Path.GetFullPath(data ?? (demo ? "data/demo" : "data/shop")),
            Port = port,
            Listen = listen,
            Demo = demo,
            ResetPasswordFor = email,
            BackupTo = backup,
            RestoreFrom = restore,
            Arguments = [.. rest],
        };
    }

    private static (string Name, string? Value) Split(string argument)
    {
        var at = argument.IndexOf('=', StringComparison.Ordinal);
        return at > 0 && argument.StartsWith("--", StringComparison.Ordinal) ? (argument[..at], argument[(at + 1)..]) : (argument, null);
    }
}

public sealed record StartOptionMissing(string Option)
    : Invalid(Option, $"{Option} needs a value behind it, such as {Example(Option)}.")
{
    private static string Example(string option) => option switch
    {
        "--data" => "--data /var/lib/workshop",
        "--port" => "--port 5080",
        "--listen" => "--listen 0.0.0.0",
        "backup" or "restore" => $"{option} /media/disk/workshop",
        _ => "reset-password ada@example.com",
    };
}

public sealed record PortUnusable(string Value)
    : Invalid("--port", $"--port {Value} is not a port number: give one from 1 to 65535, such as --port {StartOptions.DefaultPort}.");
