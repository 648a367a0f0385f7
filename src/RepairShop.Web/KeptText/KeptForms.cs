using System.Security.Claims;
using System.Security.Cryptography;
using System.Text.Encodings.Web;
using System.Text.Json;
using Microsoft.AspNetCore.Authentication;
using Microsoft.AspNetCore.Authentication.Cookies;
using Microsoft.AspNetCore.DataProtection;
using Microsoft.AspNetCore.Mvc;
using Microsoft.AspNetCore.Mvc.ModelBinding;
using Microsoft.AspNetCore.Mvc.ViewFeatures;

namespace RepairShop.Web.KeptText;

/// <summary>
/// Carries a form over a sign-in: its fields travel encrypted in a hidden field of the sign-in page and come back on a page with
/// one button that sends them again. Only what a page of this very host has sent is carried, else another site could have its
/// form sent with one press.
/// </summary>
public sealed class KeptForms(IDataProtectionProvider protection)
{
    public const int MaxBytes = 200_000;

    public static readonly TimeSpan Lifetime = TimeSpan.FromHours(12);

    /// <summary>Where a kept form, encrypted, waits in the request for the sign-in page to be shown.</summary>
    internal const string Item = "kept-form";

    /// <summary>In place of the form when it was too long to carry.</summary>
    internal const string TooLong = "";

    private static readonly JsonSerializerOptions Json = new() { Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };
    private readonly ITimeLimitedDataProtector protector = protection.CreateProtector("kept-form").ToTimeLimitedDataProtector();

    public static async Task<KeptForm?> Read(HttpRequest request)
    {
        if (!HttpMethods.IsPost(request.Method) || !request.HasFormContentType || !IsFromHere(request))
            return null;
        var form = await request.ReadFormAsync(request.HttpContext.RequestAborted);
        var fields = form
            .Where(field => !field.Key.StartsWith("__", StringComparison.Ordinal) && !field.Key.Contains("password", StringComparison.OrdinalIgnoreCase))
            .SelectMany(field => field.Value.Select(value => new KeptField(field.Key, value ?? "")))
            .ToList();
        var files = form.Files.Where(file => file.Length > 0).Select(file => file.FileName).ToList();
        return new KeptForm($"{request.PathBase}{request.Path}{request.QueryString}", fields, files);
    }

    /// <summary>The form as one encrypted text; <see cref="TooLong"/> when it would be larger than <see cref="MaxBytes"/>.</summary>
    public string Protect(KeptForm form)
    {
        var bytes = JsonSerializer.SerializeToUtf8Bytes(form, Json);
        return bytes.Length > MaxBytes ? TooLong : Convert.ToBase64String(protector.Protect(bytes, Lifetime));
    }

    /// <summary>Null when there is none, or it is too old, or not ours.</summary>
    public KeptForm? Unprotect(string? text)
    {
        if (string.IsNullOrEmpty(text))
            return null;
        try
        {
            return JsonSerializer.Deserialize<KeptForm>(protector.Unprotect(Convert.FromBase64String(text)), Json);
        }
        catch (Exception tampered) when (tampered is CryptographicException or FormatException or JsonException)
        {
            return null;
        }
    }

    /// <summary>Forms of these pages hold passwords and codes and are filled in anew instead.</summary>
    public static bool HoldsSecrets(PathString path) => path.StartsWithSegments("/account") || path.StartsWithSegments("/first-start");

    /// <summary>The page with one button that sends the form again.</summary>
    public static ViewResult Show(KeptForm form) => new()
    {
        ViewName = "/Pages/Shared/Kept.cshtml",
        ViewData = new ViewDataDictionary<KeptForm>(new EmptyModelMetadataProvider(), new ModelStateDictionary()) { Model = form },
    };

    /// <summary>A page needs signing in: for a form that was sent, the sign-in page comes in its place and carries it.</summary>
    internal static async Task OnSignInNeeded(RedirectContext<CookieAuthenticationOptions> context)
    {
        if (HoldsSecrets(context.Request.Path) || await Read(context.Request) is not { } form)
        {
            context.Response.Redirect(context.RedirectUri);
            return;
        }

        context.HttpContext.Items[Item] = context.HttpContext.RequestServices.GetRequiredService<KeptForms>().Protect(form with { Of = LastSignedIn(context) });
        context.Response.StatusCode = StatusCodes.Status401Unauthorized;
    }

    /// <summary>Whose session it was that is over; null where the browser holds nothing of one any more.</summary>
    private static Guid? LastSignedIn(RedirectContext<CookieAuthenticationOptions> context)
    {
        var cookie = context.Options.CookieManager.GetRequestCookie(context.HttpContext, context.Options.Cookie.Name!);
        return cookie is not null && Guid.TryParse(context.Options.TicketDataFormat.Unprotect(cookie)?.Principal.FindFirstValue(ClaimTypes.NameIdentifier), out var id)
            ? id : null;
    }

    private static bool IsFromHere(HttpRequest request) =>
        request.Headers["Sec-Fetch-Site"] is [var site]
            ? site == "same-origin"
            : string.Equals(request.Headers.Origin, $"{request.Scheme}://{request.Host}", StringComparison.OrdinalIgnoreCase);
}
