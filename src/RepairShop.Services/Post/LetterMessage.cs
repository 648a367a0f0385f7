using System.Globalization;
using MimeKit;
using RepairShop.Domain.Post;

namespace RepairShop.Services.Post;

/// <summary>A paper to attach: its name as the customer sees it, and its bytes.</summary>
internal sealed record Attachment(string FileName, byte[] Bytes, string MediaSubtype = "pdf");

/// <summary>A row of the outbox as a MIME message. The same row gives the same bytes, so that a letter written twice is one file.</summary>
internal static class LetterMessage
{
    /// <summary>Where no sender is set at all; reserved for "leads nowhere" by RFC 2606.</summary>
    public const string NoSender = "workshop@post.invalid";

    public static MimeMessage Of(OutboxMail mail, string fromName, string fromAddress, IReadOnlyList<Attachment> attachments)
    {
        var from = fromAddress.Length == 0 ? NoSender : fromAddress;
        var message = new MimeMessage
        {
            Subject = OutboxRules.OneLine(mail.Subject),
            Date = mail.CreatedAt.ToUniversalTime(),
            MessageId = string.Create(CultureInfo.InvariantCulture, $"{mail.Id:N}@{DomainOf(from)}"),
        };
        message.From.Add(new MailboxAddress(OutboxRules.OneLine(fromName), from));
        message.To.Add(new MailboxAddress(OutboxRules.OneLine(mail.ToName), mail.ToAddress));
        message.Headers.Add("Auto-Submitted", "auto-generated"); // RFC 3834: answers by machines are not wanted
        var text = new TextPart("plain") { Text = mail.Body.ReplaceLineEndings("\n") };
        message.Body = attachments.Count == 0 ? text : WithAttachments(mail, text, attachments);
        return message;
    }

    private static Multipart WithAttachments(OutboxMail mail, TextPart text, IReadOnlyList<Attachment> attachments)
    {
        var all = new Multipart("mixed") { text };
        all.Boundary = $"part-{mail.Id:N}";
        foreach (var attachment in attachments)
        {
            all.Add(new MimePart("application", attachment.MediaSubtype)
            {
                Content = new MimeContent(new MemoryStream(attachment.Bytes)),
                ContentDisposition = new ContentDisposition(ContentDisposition.Attachment),
                ContentTransferEncoding = ContentEncoding.Base64,
                FileName = attachment.FileName,
            });
        }
        return all;
    }

    private static string DomainOf(string address) => address[(address.LastIndexOf('@') + 1)..];
}
