using System.Buffers.Text;
using System.Security.Cryptography;
using System.Text;

namespace RepairShop.Services.Estimates;

/// <summary>The secret in a customer's link: 256 random bits. The database keeps only its hash; the secret itself stands in
/// the paper and the letter it was made for.</summary>
internal static class AnswerToken
{
    public const int Characters = 43;

    public static string New() => Base64Url.EncodeToString(RandomNumberGenerator.GetBytes(32));

    public static string Hash(string token) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(token)));
}
