using System.Text;
using RepairShop.Documents.Paperwork;
using RepairShop.Domain.Paperwork;

namespace RepairShop.Documents.Tests.Paperwork;

[Collection(nameof(Alone))]
public class CreationDateTests
{
    [Theory]
    [InlineData("UTC")]
    [InlineData("America/New_York")]
    [InlineData("Asia/Kolkata")]
    public void The_creation_date_is_the_moment_of_issue_wherever_the_machine_stands(string zone)
    {
        var before = Environment.GetEnvironmentVariable("TZ");
        var elsewhere = PaperRenderer.Render(PaperKind.Estimate, Sample.Estimate).Pdf;
        try
        {
            Environment.SetEnvironmentVariable("TZ", zone);
            TimeZoneInfo.ClearCachedData();
            var facts = Sample.Invoice with { IssuedAt = new DateTimeOffset(2026, 7, 1, 3, 4, 5, TimeSpan.FromHours(2)) };
            var pdf = Encoding.Latin1.GetString(PaperRenderer.Render(PaperKind.Invoice, facts).Pdf);
            Assert.Contains("/CreationDate (D:20260701010405+00'00')", pdf);
            Assert.Contains("CreateDate>2026-07-01T01:04:05+00:00<", pdf);
            Assert.Equal(elsewhere, PaperRenderer.Render(PaperKind.Estimate, Sample.Estimate).Pdf);
        }
        finally
        {
            Environment.SetEnvironmentVariable("TZ", before);
            TimeZoneInfo.ClearCachedData();
        }
    }
}
