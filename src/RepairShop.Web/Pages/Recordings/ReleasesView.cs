using RepairShop.Services.Recordings;

namespace RepairShop.Web.Pages.Recordings;

/// <summary>What one stay at the capture page has brought, on the page and alone after each release.</summary>
public sealed record ReleasesView(string Number, string Phase, Guid Session, Guid? Test, IReadOnlyList<ReleaseLine> Lines);
